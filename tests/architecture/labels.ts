import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';

/** Layers that put words in front of a person. */
const SPEAKING = ['src/ui', 'src/app'];
/** Attributes of elements and components whose text is read as a label. */
const LABEL_ATTRIBUTES = new Set(['title', 'label', 'aria-label', 'name', 'summary', 'heading']);
/** Elements whose text is a label. */
const LABEL_ELEMENT =
  /^(button|Button|PushButton|SwitchButton|Radio|h[1-4]|legend|summary|th|dt|label|figcaption)$/;

/** Every label of the app that is written out in the source: headings, buttons, names of fields and columns. */
export function labelsInSource(): string[] {
  const labels = new Set<string>();
  for (const folder of SPEAKING) {
    for (const path of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
      if (path.endsWith('.tsx')) collect(join(folder, path), labels);
    }
  }
  return [...labels].sort();
}

function collect(path: string, labels: Set<string>): void {
  const source = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, true);
  const keep = (text: string): void => {
    const label = text.trim().replace(/\s+/g, ' ');
    if (/\p{L}{2}/u.test(label)) labels.add(label);
  };
  /** One thing to choose of several: `{ value: …, name: 'as on the button' }`. */
  const keepOption = ({ properties }: ts.ObjectLiteralExpression): void => {
    const texts = new Map(
      properties.map((one) => [one.name?.getText(), ts.isPropertyAssignment(one) ? one.initializer : null]),
    );
    const name = texts.get('name');
    if (texts.has('value') && name != null && ts.isStringLiteral(name)) keep(name.text);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isJsxAttribute(node) && LABEL_ATTRIBUTES.has(node.name.getText())) {
      if (node.initializer !== undefined && ts.isStringLiteral(node.initializer)) keep(node.initializer.text);
    } else if (ts.isJsxElement(node) && LABEL_ELEMENT.test(node.openingElement.tagName.getText())) {
      for (const child of node.children) if (ts.isJsxText(child)) keep(child.text);
    } else if (ts.isObjectLiteralExpression(node)) keepOption(node);
    ts.forEachChild(node, visit);
  };
  visit(source);
}
