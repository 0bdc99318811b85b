/** The keys inside the timeline, as the keyboard help lists them. The timeline must have the focus. */

export const timelineKeys: readonly { readonly keys: string; readonly words: string }[] = [
  { keys: "Left, Right", words: "Earlier or later item of the lane" },
  { keys: "Up, Down", words: "Lane above or below, nearest item" },
  { keys: "Home, End", words: "First or last item of the lane" },
  { keys: "Page Up, Page Down", words: "One screen earlier or later" },
  { keys: "Enter", words: "Show the item in the inspector" },
  { keys: "Ctrl+Space", words: "Select the item with others, or take it out" },
  { keys: "Shift+arrows", words: "Walk on, and select what is walked over" },
  { keys: "Ctrl or Shift with a press", words: "Select one more; all from the one selected to it" },
  { keys: "Shift with a drag on the ground", words: "Draw a box around what is to be selected" },
  { keys: "Space", words: "Pick the item up; again to put it down" },
  { keys: "Left, Right when picked up", words: "Move by a day (Shift: 10 days, Alt: an hour)" },
  { keys: "[, ]", words: "Pick up its end and move it by a day" },
  { keys: "Escape", words: "Put back what is picked up or dragged" },
  { keys: "Delete", words: "Remove the item from the plan" },
  { keys: "+, −", words: "Zoom in or out" },
  { keys: "Shift+F10", words: "What can be done with the item or the chart" },
  { keys: "T", words: "Timeline as a table" },
];
