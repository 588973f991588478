package recipe

// The TOML form. Keys that DESIGN's example shows are not repeated here. Quantities are texts with units; every key that
// is not named here or there is a fault.
//
// In [liquor], [stock], [[powder]] and [[step]]:
//
//	evidence   where the figures come from, in the dyer's words
//
// In [liquor] alone:
//
//	ph_fresh   may be left out: it is then reckoned from the doses, at build
//	ph_kept    the pH that a vat which sours as it works is kept at, as a ferment; within ph. A ferment without it
//	           counts as 10.2, or the end of its ph that is nearer
//
// In [[powder]]:
//
//	dose, of   dose = "2 g/g" with of = "indigo": grams for each gram of another powder, which is dosed in g/L; reckoned
//	           at the recipe's own strength of indigo
//	strength   a number or a percentage: 0.60 or "60 %"
//	rinse      water that rinses the jar of a wetted powder into the vat, in mL/g; half of hydrate if left out
//	into       "stock": it belongs in the stock jar; its dose is for each litre of the vat all the same
//	at_once    the most in one later addition, in g/L of the vat
//	per_day    the most in a day, in g/L of the vat
//	alkali_first   on a reducer, "1.2 g/g": grams of the recipe's alkali that go in before each gram, once the vat stands
//
// In [stock], the jar in which indigo is reduced before it goes into the vat:
//
//	volume     the least that is worth making up; for less there is a caution
//	per_litre  stock for each litre of the vat, "60 mL/L"
//	build      the °C it is warmed to and kept at, at most 60 °C
//	ready, recheck   its own wait, as in [liquor]
//
// In [[step]]:
//
//	part       part of the powder, 0 to 1; all parts that are weighed come to 1, and all that are added
//	into       "stock": the step is done at the stock jar
//	from       "stock", on an add step without powder: the stock is poured into the vat
//	water      on dissolve and simmer, the water in its jug or pot, in mL/g; 10 mL/g for a dissolve step that has none
//	at_least, at_most   what the liquor, or on a dissolve step the jug's water, must read before the step
//	to         what fill, warm, cool and simmer aim at
//	for        needed on simmer, wait, settle and rest; stir may have it
//	how, why   one short line each
//	look       at a check: what to look for, as a list of things without a full stop
//	caution    before powder, hot water and lye; the words before the first semicolon are the short form
//	meanwhile  at a wait: what can be begun
//
// What check means by it: a check step asks whether the vat (or the stock) is ready. A °C that must be read before a
// powder goes in is at_most on the powder's own step.
//
// The faults of chemistry: chemistry.go (roles, materials, the stock jar, the order of the water, whether each powder is
// weighed, wetted and added) and danger.go (sulfur reducers and lye). They have no override.
