// Package signs goes from what is seen at a vat to what may be the cause, and from the likeliest cause to one thing to
// do: with its dose for this fill, how it goes in, how long to wait and how to look again.
//
// Rules of the doses, which no sign overrides:
//
//   - the state of the liquor is judged in model/liquor, by what was read, and stands first: acid in a vat with a sulfur reducer, a
//     pH that cannot be, goods, heat, alkali, warmth, reducer; the signs say what else ails it, and their doses are reckoned there;
//   - alkali first only where pH was read low; else warmth, then reducer, alkali last, and then only if a reading or the
//     milky sign asks for it, or a handbook's row of an iron–lime vat (too yellow, rising sediment) or a putrid ferment;
//   - never more than a recipe's at_once, nor than its per_day less what was given today;
//   - never a chemical reducer in a ferment vat, never acid in any vat;
//   - no powder into a liquor too hot for it (liquor.State.Hottest; the stock jar has its own °C), no reducer where the strip says that
//     there is enough;
//   - never warmer than the recipe's aim or its build, nor than goods and a class bear;
//   - signs that contradict each other ask for another look before any powder;
//   - a sign that speaks against a vat that is ready keeps it from being called so, and a sign that no cause here is known for
//     asks for another look (ready.go);
//   - a smell of burnt sulfur silences all other signs; so does a vat that is being built, is being ended, or has ended;
//   - no food in a ferment vat before three days since the last;
//   - how long to wait is told by model/liquor alone (wait.go there);
//   - doing nothing, and stopping the dyeing, are answers.
//
// Evidence is marked S with a number for a source of the project's list, C for common practice without a source, M for
// from memory, K for calculated. The weights of the causes are judgements (M): they order, and claim no chance.
package signs
