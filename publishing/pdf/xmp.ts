/** The metadata stream (ISO 16684-1, ISO 14289-1 clause 5): who, what, in which language, and that it is made to be read aloud. No dates. */

export interface DocumentFacts {
  readonly title: string;
  readonly publisher: string;
  readonly subject: string;
  readonly language: string;
  /** Says "PDF/UA-1": left out where a page shows what no font can read aloud. */
  readonly accessible: boolean;
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

const alternative = (name: string, text: string): string =>
  `   <${name}><rdf:Alt><rdf:li xml:lang="x-default">${escaped(text)}</rdf:li></rdf:Alt></${name}>`;

export function xmpOf(facts: DocumentFacts): string {
  const lines = [
    // The opening mark is the byte-order mark as a character; the id is the one the standard fixes.
    '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>',
    '<x:xmpmeta xmlns:x="adobe:ns:meta/">',
    ' <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">',
    '  <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:xmp="http://ns.adobe.com/xap/1.0/"',
    '    xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/">',
    '   <dc:format>application/pdf</dc:format>',
    alternative('dc:title', facts.title),
    `   <dc:creator><rdf:Seq><rdf:li>${escaped(facts.publisher)}</rdf:li></rdf:Seq></dc:creator>`,
    ...(facts.subject === '' ? [] : [alternative('dc:description', facts.subject)]),
    `   <dc:language><rdf:Bag><rdf:li>${escaped(facts.language)}</rdf:li></rdf:Bag></dc:language>`,
    '   <xmp:CreatorTool>Handsclear</xmp:CreatorTool>',
    '   <pdf:Producer>Handsclear</pdf:Producer>',
    ...(facts.accessible ? ['   <pdfuaid:part>1</pdfuaid:part>'] : []),
    '  </rdf:Description>',
    ' </rdf:RDF>',
    '</x:xmpmeta>',
    '<?xpacket end="r"?>',
  ];
  return `${lines.join('\n')}\n`;
}
