import { NAME_SOURCE } from './names.js';

const TARGET = new RegExp(`^${NAME_SOURCE}$`, 'u');
/** As XML 1.0 has it (production 23); of later versions only those that say what it says. */
const XML_DECLARATION =
  /^<\?xml\s+version\s*=\s*(["'])1\.\d+\1(?:\s+encoding\s*=\s*(["'])[A-Za-z][\w.-]*\2)?(?:\s+standalone\s*=\s*(["'])(?:yes|no)\3)?\s*\?>$/;

/**
 * Offset behind the processing instruction at `open`, or behind the XML declaration, which looks like one.
 *
 * @param fail tells where and why it is refused
 */
export function instructionEnd(
  text: string,
  open: number,
  fail: (code: 'NOT_XML', message: string, at: number) => never,
): number {
  const end = text.indexOf('?>', open + 2);
  if (end === -1)
    return fail('NOT_XML', 'a processing instruction has no end; the file seems to be truncated', open);
  const target = text.slice(open + 2, end).split(/\s/, 1)[0] as string;
  if (!TARGET.test(target))
    return fail('NOT_XML', `"<?${target.slice(0, 20)}" is not the name of an instruction`, open);
  if (target.toLowerCase() === 'xml') {
    if (open > (text.charCodeAt(0) === 0xfeff ? 1 : 0))
      return fail('NOT_XML', 'an XML declaration is not allowed here; it must be the very first', open);
    if (!XML_DECLARATION.test(text.slice(open, end + 2)))
      return fail('NOT_XML', 'the XML declaration is not well-formed', open);
  }
  return end + 2;
}
