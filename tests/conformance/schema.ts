import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  ParseOption,
  XmlBufferInputProvider,
  XmlDocument,
  XmlValidateError,
  XsdValidator,
  xmlRegisterInputProvider,
} from 'libxml2-wasm';

const FOLDER = fileURLToPath(new URL('../../fixtures/musicxml-4.0/', import.meta.url));
// The addresses that musicxml.xsd imports; both are answered from the files beside it.
const IMPORTS = ['xml.xsd', 'xlink.xsd'];
const address = (name: string) => `http://www.musicxml.org/xsd/${name}`;

// libxml2 validates no document that still holds references to its own entities.
const OPTION = ParseOption.XML_PARSE_HUGE | ParseOption.XML_PARSE_NONET | ParseOption.XML_PARSE_NOENT;

/** All complaints about a text, without line numbers; none where it is valid. */
export type Validate = (text: string) => readonly string[];

/**
 * A check of one text against MusicXML 4.0. Nothing is loaded from the network: libxml2 in WebAssembly has no
 * other input than the buffers given here.
 */
export function schema(): Validate {
  const files = Object.fromEntries(
    IMPORTS.map((name) => [address(name), new Uint8Array(readFileSync(`${FOLDER}${name}`))]),
  );
  xmlRegisterInputProvider(new XmlBufferInputProvider(files));
  const document = XmlDocument.fromBuffer(new Uint8Array(readFileSync(`${FOLDER}musicxml.xsd`)), {
    url: address('musicxml.xsd'),
  });
  const validator = XsdValidator.fromDoc(document);
  return (text) => {
    const score = XmlDocument.fromString(text, {
      option: OPTION,
    });
    try {
      validator.validate(score);
      return [];
    } catch (error) {
      if (!(error instanceof XmlValidateError)) throw error;
      return error.details.map(({ message }) => message.trim());
    } finally {
      score.dispose();
    }
  };
}
