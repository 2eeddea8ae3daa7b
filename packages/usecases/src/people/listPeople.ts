// Reads about people.
export { listPeople, findPerson } from '@backsight/store/people';
