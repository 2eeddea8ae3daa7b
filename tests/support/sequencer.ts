// In which order the files run: what waits much (a browser) first and beside what computes, the long ones before the short ones,
// so that no processor idles at the end. Without it they would go by the size of the file, which says little.
import path from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const PROJECTS = ['browser', 'service', 'pure', 'deep'];

/** The longest of each project, the longest first. */
const LONG = [
  'browser/story.test.ts',
  'browser/accessibility.test.ts',
  'browser/inspectorsDay.test.ts',
  'browser/siteActs.test.ts',
  'browser/offline.test.ts',
  'browser/plans.test.ts',
  'browser/booking.test.ts',
  'browser/workingTime.test.ts',
  'browser/crew.test.ts',
  'browser/texts.test.ts',
  'browser/procedures.test.ts',
  'usecases/demo.test.ts',
  'usecases/moneyActs.test.ts',
  'faults/start.test.ts',
  'http/sitework/register.test.ts',
  'http/procedureBook.test.ts',
  'domain/scheduling/findStarts.oracle.test.ts',
  'domain/scheduling/plan/planDay.properties.test.ts',
];

export default class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const usual = await super.sort(files);
    const tests = path.join(this.ctx.config.root, 'tests');
    const long = ({ moduleId }: TestSpecification): number => {
      const at = LONG.indexOf(path.relative(tests, moduleId).replaceAll('\\', '/'));
      return at < 0 ? LONG.length : at;
    };
    const group = ({ project }: TestSpecification): number => project.config.sequence.groupOrder;
    const place = ({ project }: TestSpecification): number => PROJECTS.indexOf(project.name);
    return usual.toSorted((a, b) => group(a) - group(b) || place(a) - place(b) || long(a) - long(b));
  }
}
