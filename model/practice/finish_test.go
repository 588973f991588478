package practice_test

import (
	"testing"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
)

// 420 g take 8.4 L at 20 L a kilogram (C); 1.5 g of citric acid or 15 mL of vinegar a litre (C), 1 g of soap (M).
func TestTheFigureOfABath(t *testing.T) {
	steps, err := practice.FinishPlan(practice.Finish{Fibre: fibre.Linen, Family: recipe.IronLime, Dry: quantity.Grams(420)})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string][3]string{
		"air": {}, "dry": {}, "crock": {},
		"rinse":  {"8.4", "L", "plain water at 20 °C, 5 min"},
		"sour":   {"12.6", "g", "citric acid, or 126 mL of 5 % vinegar, in 8.4 L at 20 °C, 15 min"},
		"soap":   {"8.4", "g", "neutral soap, in 8.4 L at 80 °C, 15 min"},
		"citric": {"12.6", "g", "citric acid, in 8.4 L at 60 °C, 15 min"},
	}
	for _, s := range steps {
		number, unit, note := s.Figure(quantity.Metric)
		if got := [3]string{number, unit, note}; got != want[s.ID] {
			t.Errorf("%s: %q", s.ID, got)
		}
		delete(want, s.ID)
	}
	if len(want) > 0 {
		t.Errorf("missing %v", want)
	}
}
