package practice

import "example.org/vatside/model/quantity"

// three is the least, the likely and the most.
type three [3]float64

// spread is a range by three numbers and what makes a quantity of each.
func spread[T ~float64 | ~int64](low, likely, high float64, of func(float64) T) quantity.Range[T] {
	return quantity.Range[T]{Low: of(low), Likely: of(likely), High: of(high)}
}

func degrees(low, likely, high float64) quantity.Range[quantity.Temperature] {
	return spread(low, likely, high, quantity.Celsius)
}

func spans(low, likely, high float64) quantity.Range[quantity.Span] {
	return spread(low, likely, high, quantity.Minutes)
}

// volumes is millilitres a litre of bath.
func volumes(bath quantity.Volume, low, likely, high float64) quantity.Range[quantity.Volume] {
	return spread(low, likely, high, func(x float64) quantity.Volume { return quantity.Millilitres(x * bath.Litres()) })
}

// masses is grams a litre of bath.
func masses(bath quantity.Volume, low, likely, high float64) quantity.Range[quantity.Mass] {
	return spread(low, likely, high, func(x float64) quantity.Mass { return quantity.Grams(x * bath.Litres()) })
}

func litresPerKilogram(r three, dry quantity.Mass) quantity.Range[quantity.Volume] {
	return spread(r[0], r[1], r[2], func(x float64) quantity.Volume { return quantity.Litres(x * dry.Kilograms()) })
}
