import { PushButton, SwitchButton } from '../controls/controls.tsx';
import { Sheet } from '../opening/Sheet.tsx';

/** Keys by where they work; each is in docs/vocabulary.md with where it comes from. */
const GROUPS: readonly { readonly title: string; readonly keys: readonly (readonly [string, string])[] }[] = [
  {
    title: 'Everywhere',
    keys: [
      ['Tab, Shift + Tab', 'to the next control, to the one before'],
      ['Enter or Space', 'press a button'],
      ['arrows', 'choose within a group, a list or a slider'],
      ['Escape', 'end placing, tracing, a drag, or an open sheet; else put the newest message away'],
      ['Ctrl or Cmd + Z', 'undo'],
      ['Ctrl or Cmd + Y, or Shift + Z', 'redo'],
      ['?', 'this page'],
    ],
  },
  {
    title: 'On the film',
    keys: [
      ['arrows', 'move the film, or the point or cross that has the focus; with Shift ten times as far'],
      ['Enter or Space', 'place the point under the cross'],
      ['+ and −', 'nearer, farther'],
      ['0', 'the whole film'],
    ],
  },
  {
    title: 'In a demonstration',
    keys: [
      ['Page Down, Page Up, arrows, Home, End', 'steps'],
      ['B or full stop', 'blank'],
      ['S, D, F', 'spotlight, dark room, full screen'],
      ['Shift + arrows', 'move the spotlight'],
    ],
  },
];

interface KeySheetProps {
  /** Whether "?" opens this page. */
  readonly byKey: boolean;
  readonly onByKey: (on: boolean) => void;
  readonly onClose: () => void;
}

/** Every key of the app on one page. */
export default function KeySheet({ byKey, onByKey, onClose }: KeySheetProps) {
  return (
    <Sheet
      title="Keys"
      onClose={onClose}
      foot={
        <>
          <SwitchButton on={byKey} onChange={onByKey}>
            “?” opens this page
          </SwitchButton>
          <PushButton next onPress={onClose}>
            Close
          </PushButton>
        </>
      }
    >
      {GROUPS.map(({ title, keys }) => (
        <table key={title} className="keys">
          <caption>{title}</caption>
          <tbody>
            {keys.map(([key, does]) => (
              <tr key={key}>
                <th scope="row">{key}</th>
                <td>{does}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </Sheet>
  );
}
