// How to take photos, what the words mean, and the keys.
import { h, put } from "../dom.js";

const WORDS = [
  ["Stippled", "covered by pale feeding marks"], ["Yellowed", "diffuse yellow"], ["Browned", "dead brown tissue"],
  ["Chewed", "missing: bites and holes"], ["Not judged", "shine, deep shadow or blur; never counted as sound"],
  ["Damage", "stippled, yellowed and browned together, as a share of the leaf that is there and can be judged"],
  ["90 % range", "the truth lies in it nine times out of ten"], ["Tap", "a branch struck over white paper, and what walks there counted"],
];

export async function draw(page) {
  put(page, h("h1", null, "Help"),
    h("h2", null, "Photos that measure well"),
    h("ol", { class: "steps" },
      h("li", null, "One leaf, or a few that do not touch, flat on plain white paper. On the plant works too, with more doubt."),
      h("li", null, "Shade or an overcast sky. Sun mirrors in the leaf."),
      h("li", null, "Fill the frame with the leaf."),
      h("li", null, "At least five leaves a plant on every walk, chosen the same way. Tag a few and photograph the same ones again."),
      h("li", null, "At a desk: a folder for each plant, named with its code, all in one folder to drop.")),
    h("h2", null, "Words"),
    h("dl", null, WORDS.map(([word, means]) => [h("dt", null, h("strong", null, word)), h("dd", null, means)])),
    h("h2", null, "Without a mouse"),
    h("ul", null,
      h("li", null, h("kbd", null, "Tab"), " goes to the next thing, ", h("kbd", null, "Enter"), " or ", h("kbd", null, "Space"), " presses it."),
      h("li", null, "On a photo, ", h("kbd", null, "←"), " ", h("kbd", null, "→"), " move the slider between photo and marks; on the enlarged photo the arrows move the photo."),
      h("li", null, "Drawing an outline: the arrows move the cross (with ", h("kbd", null, "Shift"), " in small steps), ", h("kbd", null, "Enter"), " sets a point, ", h("kbd", null, "Backspace"), " takes the last one back."),
      h("li", null, "On a tap sheet the arrows move a cross too, and ", h("kbd", null, "Enter"), " chooses the speck under it; ", h("em", null, "Next speck"), " goes from one to the next."),
      h("li", null, "No single letter does anything, so nothing happens by accident.")),
    h("h2", null, "What stays here"),
    h("p", null, "Photos and record stay on the machine that runs LeafScan. Nothing is sent anywhere else, and the place where a photo was taken is never shown or passed on."));
}
