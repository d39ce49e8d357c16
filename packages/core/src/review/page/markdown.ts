import { checkReview, checkReviewText } from '../../options/allowed.js';
import type { Review } from '../report-types.js';
import { ALL, documentOf, type Section, sentence } from './document.js';

/** A review as Markdown, whole. */
export function reviewMarkdown(review: Review, options: { readonly title: string }): string {
  checkReview(review);
  checkReviewText(options);
  const { title } = options;
  const { sections, foot } = documentOf(review, title, ALL);
  const blocks = [
    `# ${escaped(title)}`,
    ...sections.map(sectionText),
    foot.map((line) => `> ${escaped(line)}`).join('\n>\n'),
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

function sectionText({ heading, lines, items = [], table }: Section): string {
  const blocks: string[] = [];
  if (heading !== undefined) blocks.push(`## ${escaped(sentence(heading))}`);
  if (items.length > 0) {
    blocks.push(
      items
        .map(({ head, lines: own }) =>
          [`- **${escaped(head)}**`, ...own.map((line) => `  ${escaped(line)}`)].join('  \n'),
        )
        .join('\n'),
    );
  }
  blocks.push(...lines.map(escaped));
  if (table) blocks.push(markdownTable(table));
  return blocks.join('\n\n');
}

export function markdownTable([headings, ...rows]: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.map(escaped).join(' | ')} |`;
  const rule = `|${headings!.map((_, at) => (at === 0 ? ' --- ' : ' ---: ')).join('|')}|`;
  return [line(headings!), rule, ...rows.map(line)].join('\n');
}

/** Signs that would be read as markup. */
function escaped(text: string): string {
  return text.replaceAll(/[\\`*_[\]<>|#]/g, '\\$&');
}
