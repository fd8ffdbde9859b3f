/** A line that starts with a minus and a number becomes a bullet and loses its minus. */
import { formCheck } from './form.ts';

export const quantityAsBullet = formCheck(
  {
    id: 'quantity-as-bullet',
    severity: 'error',
    question: 'Does a list item start with a quantity that may have had a minus?',
    why: 'Markdown takes "- 5 °C" for a bullet: the page shows 5 °C where the machine needs minus 5 °C.',
    source: 'format rule F7',
    cases: [
      { name: 'a temperature below zero', finds: 1, work: '#. Read the thermometer.\n\n   - 5 °C is the lowest it may show.' },
      { name: 'a real minus sign', finds: 0, work: '#. Read the thermometer: −5 °C is the lowest it may show.' },
    ],
  },
  ['labels'],
);
