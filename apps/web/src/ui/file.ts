// A chosen file as the service takes it.
export const asBase64 = (file: File): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(String(reader.result).split(',')[1] ?? ''));
    reader.addEventListener('error', () => reject(new Error('the file could not be read')));
    reader.readAsDataURL(file);
  });
