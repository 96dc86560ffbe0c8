/** A press of the main button, as both WebDriver and WebDriver BiDi (W3C, “Actions”) write it down. */
export const clickAt = (x: number, y: number): readonly object[] => [
  {
    type: 'pointer',
    id: 'mouse',
    parameters: { pointerType: 'mouse' },
    actions: [
      { type: 'pointerMove', x: Math.round(x), y: Math.round(y) },
      { type: 'pointerDown', button: 0 },
      { type: 'pointerUp', button: 0 },
    ],
  },
];
