/** What the yaml package found wrong, in the words of someone who fills in a form. */

const MESSAGES: Readonly<Record<string, string>> = {
  ALIAS_PROPS: 'A name with * can carry nothing else. Write the value out.',
  BAD_ALIAS: 'A star at the start of a value has a meaning of its own in YAML. Put the value in quotes.',
  BAD_COLLECTION_TYPE: 'A list stands where a map is expected, or the other way round.',
  BAD_DIRECTIVE: 'A line that starts with % has a meaning of its own in YAML. Delete it or put it in quotes.',
  BAD_DQ_ESCAPE: 'A backslash in double quotes must be doubled. Single quotes take it as it is.',
  BAD_INDENT: 'This line is indented differently from the ones it belongs with. Give it the same number of spaces.',
  BAD_PROP_ORDER: 'Marks with & or ! stand in the wrong place. Delete them.',
  BAD_SCALAR_START: 'A value cannot start with this character. Put the value in quotes.',
  BLOCK_AS_IMPLICIT_KEY: 'A colon followed by a space starts a new field. If it belongs to the value, put the value in quotes.',
  BLOCK_IN_FLOW: 'A list with hyphens cannot stand inside brackets or braces. Use commas there.',
  DUPLICATE_KEY: 'This field stands here twice.',
  FENCE: 'This is a fence of Markdown; a YAML file holds the fields alone. Delete the line, and the fence at the end.',
  IMPOSSIBLE: 'This cannot be read as YAML.',
  KEY_OVER_1024_CHARS: 'This name is too long to be a field. Is a line break or a quote missing?',
  MISSING_CHAR: 'Something is missing here: a space after a colon or comma, a closing quote, bracket or brace.',
  MULTILINE_IMPLICIT_KEY: 'A field name runs over two lines. Is a colon missing on this line or the one before?',
  MULTIPLE_ANCHORS: 'Marks with & stand twice on one value. Delete them.',
  MULTIPLE_DOCS: 'A second document starts here. One file holds one.',
  MULTIPLE_TAGS: 'Marks with ! stand twice on one value. Delete them.',
  NON_STRING_KEY: 'A field name must be plain text.',
  OPEN_BRACKET: 'This bracket or brace is never closed: the next field begins before its end. Close it.',
  OPEN_QUOTE: 'This quote is never closed: the next field begins before its end. Close it, or leave both out.',
  TAB_AS_INDENT: 'A tab stands where YAML wants spaces. Replace it by spaces.',
  TAG_RESOLVE_FAILED: 'A mark that starts with ! has no meaning here. Delete it.',
  UNEXPECTED_TOKEN: 'This is not expected here. Is a quote, bracket or comma missing before it?',
};

export function yamlMessage(code: string, original: string): string {
  return MESSAGES[code] ?? `This cannot be read as YAML: ${original}`;
}
