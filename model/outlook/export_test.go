package outlook

import "example.org/vatside/model/quantity"

// Acidity is the pH that the forecasts of blue take.
func (b Blue) Acidity() quantity.PH { return b.vat.PH }
