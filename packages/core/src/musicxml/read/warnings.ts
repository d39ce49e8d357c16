import { inPlaces } from '../../messages/messages.js';
import type { MessageWords } from '../../messages/words.js';
import type { Place, Warning, WarningCode } from '../../score/errors.js';
import type { LineIndex } from '../xml/position.js';
import type { XmlElement } from '../xml/tree.js';

/** What a warning is about; line and column are those of the element. */
export interface Subject {
  readonly part?: string;
  readonly measure?: string;
  readonly element?: XmlElement;
}

/** Collects warnings; a message is listed once a part, with its number of places. */
export class Warnings {
  private readonly found = new Map<
    string,
    { code: WarningCode; message: string; place: Place; count: number }
  >();

  constructor(
    private readonly lines: LineIndex,
    readonly words: MessageWords,
    private readonly file?: string,
  ) {}

  add(code: WarningCode, message: string, subject: Subject = {}): void {
    const key = `${subject.part ?? ''}\n${message}`;
    const known = this.found.get(key);
    if (known !== undefined) known.count += 1;
    else this.found.set(key, { code, message, place: this.place(subject), count: 1 });
  }

  place(subject: Subject): Place {
    const { part, measure, element } = subject;
    return {
      ...(this.file === undefined ? {} : { file: this.file }),
      ...(part === undefined ? {} : { part }),
      ...(measure === undefined ? {} : { measure }),
      ...(element === undefined ? {} : this.lines.positionAt(element.span.start)),
    };
  }

  list(): Warning[] {
    return [...this.found.values()].map(({ code, message, place, count }) => ({
      code,
      message: inPlaces(message, count, this.words),
      place,
    }));
  }
}
