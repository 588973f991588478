package day

import (
	"errors"
	"fmt"
	"math"
	"reflect"

	"example.org/vatside/model/quantity"
)

// valid says what is wrong with the figures of a body that is to be written down: what is no number, or lies below
// zero where nothing can, would have no form in the book.
func valid(b Body) error {
	if b == nil {
		return errors.New("there is nothing to write down")
	}
	return validFields(reflect.ValueOf(b))
}

func validFields(v reflect.Value) error {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return validFields(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				if err := validFields(v.Field(i)); err != nil {
					return err
				}
			}
		}
	case reflect.Float64:
		f := v.Float()
		_, degrees := v.Interface().(quantity.Temperature)
		switch {
		case math.IsNaN(f) || math.IsInf(f, 0):
			return errors.New("that is not a number")
		case f < 0 && !degrees:
			return fmt.Errorf("%g is below zero", f)
		case degrees && (f < -50 || f > 150):
			return errors.New("a temperature is between -50 and 150 °C")
		}
	case reflect.Int64:
		if span, ok := v.Interface().(quantity.Span); ok && span < 0 {
			return errors.New("a time is never below zero")
		}
	}
	return nil
}

// ownKey refuses bodies that rules stand before: they come from their own commands only.
func (s State) ownKey(b Body) error {
	switch b := b.(type) {
	case Opened, CautionAnswered, StepBegun, StepDone, StepSkipped, PowderWeighed, VatJudged, DipBegun, DipEnded, Finished, BathBegun, TimerStretched, TimerCut,
		Corrected, ClockStepped, Slept, SoundFailed, Closed, Lost, Unknown:
		return fmt.Errorf("%q is not written down by hand: it has its own key", b.Kind())
	case Reading, StripTest:
		return nil
	}
	if st, ok := b.(Stepped); ok && st.StepNo() != 0 {
		return fmt.Errorf("step %d is answered with its own key", st.StepNo())
	}
	return nil
}

// beyondAll refuses a figure that a reader of the book would set aside.
func beyondAll(b Body) error {
	if key, what := Beyond(b); what != "" {
		return fmt.Errorf("%s: %s", key, what)
	}
	return nil
}
