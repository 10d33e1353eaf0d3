package working

import (
	"fmt"
	"reflect"

	"example.com/pondwright/calc/unit"
)

// A Value is one number of a step.
type Value struct {
	Symbol string
	Number float64
	Unit   string // SI, "1" for a pure number
}

// valuesOf reads a quantity, or the tagged fields of a struct of them. A type outside the rules of Formula is a mistake
// of the formula's author and panics, which the registry test of package calc brings to light.
func valuesOf(v any, symbol string) []Value {
	rv := reflect.ValueOf(v)
	if rv.Kind() != reflect.Struct {
		return []Value{{Symbol: symbol, Number: number(rv), Unit: unitOf(rv)}}
	}
	values := make([]Value, 0, rv.NumField())
	for i := range rv.NumField() {
		values = append(values, Value{
			Symbol: symbolOf(rv.Type().Field(i)),
			Number: number(rv.Field(i)),
			Unit:   unitOf(rv.Field(i)),
		})
	}
	return values
}

// fill sets the fields of the struct that target points to from values with the same symbols.
func fill(target any, values []Value) error {
	rv := reflect.ValueOf(target).Elem()
	bySymbol := make(map[string]float64, len(values))
	for _, v := range values {
		bySymbol[v.Symbol] = v.Number
	}
	for i := range rv.NumField() {
		symbol := symbolOf(rv.Type().Field(i))
		n, ok := bySymbol[symbol]
		if !ok {
			return fmt.Errorf("no value for %s", symbol)
		}
		delete(bySymbol, symbol)
		set(rv.Field(i), n)
	}
	for symbol := range bySymbol {
		return fmt.Errorf("no input %s", symbol)
	}
	return nil
}

func symbolOf(f reflect.StructField) string {
	symbol := f.Tag.Get("sym")
	if symbol == "" {
		panic("working: field " + f.Name + " has no sym tag")
	}
	return symbol
}

func unitOf(v reflect.Value) string {
	if q, ok := v.Interface().(unit.Quantity); ok {
		return q.Unit()
	}
	return "1"
}

func number(v reflect.Value) float64 {
	switch {
	case v.CanFloat():
		return v.Float()
	case v.CanInt():
		return float64(v.Int())
	case v.Kind() == reflect.Bool:
		if v.Bool() {
			return 1
		}
		return 0
	default:
		panic("working: a formula takes quantities, float64, int and bool, not " + v.Type().String())
	}
}

func set(v reflect.Value, n float64) {
	switch {
	case v.CanFloat():
		v.SetFloat(n)
	case v.CanInt():
		v.SetInt(int64(n))
	default:
		v.SetBool(n != 0)
	}
}
