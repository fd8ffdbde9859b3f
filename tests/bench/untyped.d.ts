/** Packages the bench compares with that ship no types: only what it calls. */
declare module 'pdfkit' {
  export default class PDFDocument {
    constructor(options: object);
    on(event: 'data', listener: (chunk: Uint8Array) => void): this;
    on(event: 'end', listener: () => void): this;
    registerFont(name: string, path: string): this;
    addPage(): this;
    font(name: string): this;
    fontSize(size: number): this;
    text(text: string, x: number, y: number, options: object): this;
    end(): void;
  }
}
declare module 'pdfmake' {
  const api: object;
  export default api;
}
