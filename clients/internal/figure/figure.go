// Package figure writes numbers the way people in the trade read them.
package figure

import (
	"math"
	"strconv"
	"strings"
)

// Space stands between a number and its unit. It is one that lines are not broken at.
const Space = "\u00a0"

// Digits writes a number to n significant digits, with commas between thousands and no zeros that say nothing. Very small
// and very large ones are written by a power of ten.
func Digits(x float64, n int) string {
	switch size := math.Abs(x); {
	case x == 0:
		return "0"
	case math.IsNaN(x) || math.IsInf(x, 0):
		return "not a number"
	case size < 1e-4 || size >= 1e12:
		return power(x, n)
	}
	return grouped(Plain(x, n))
}

// Plain writes a number to n significant digits for a spreadsheet or a program: no commas, no raised powers.
func Plain(x float64, n int) string {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', n, 64), 64)
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// power writes "1.31×10⁻⁶".
func power(x float64, n int) string {
	text := strconv.FormatFloat(x, 'e', n-1, 64)
	mantissa, exponent, _ := strings.Cut(text, "e")
	if strings.Contains(mantissa, ".") {
		mantissa = strings.TrimRight(strings.TrimRight(mantissa, "0"), ".")
	}
	e, _ := strconv.Atoi(exponent)
	return mantissa + "×10" + raised.Replace(strconv.Itoa(e))
}

var raised = strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷",
	"8", "⁸", "9", "⁹")

// Fixed writes a number to n places after the point, with commas between thousands.
func Fixed(x float64, n int) string { return grouped(strconv.FormatFloat(x, 'f', n, 64)) }

// Count writes a whole number with commas between thousands.
func Count[N ~int | ~int32 | ~int64](n N) string { return grouped(strconv.FormatInt(int64(n), 10)) }

// Number writes a number to three significant digits, four from a thousand on: as closely as anything about a pond is known.
func Number(x float64) string {
	if math.Abs(x) >= 1000 {
		return Digits(x, 4)
	}
	return Digits(x, 3)
}

// With writes a number before its unit.
func With(x float64, unit string) string {
	return Number(x) + Space + strings.ReplaceAll(unit, " ", Space)
}

// Money writes an amount of a currency: "GBP 1,200.50".
func Money(currency string, x float64) string {
	if currency == "" {
		return Fixed(x, 2)
	}
	return currency + Space + Fixed(x, 2)
}

// A gallon in litres: the imperial one by the United Kingdom's regulations on units, the US one as 231 cubic inches.
const (
	ukGallon = 4.54609
	usGallon = 3.785411784
)

// Volume writes litres, and both gallons beside them.
func Volume(litres float64) string {
	return With(litres, "L") + ", which is " + With(litres/ukGallon, "UK gal") + " or " + With(litres/usGallon, "US gal")
}

// grouped puts commas between the thousands of a decimal number.
func grouped(text string) string {
	whole, fraction, hasFraction := strings.Cut(text, ".")
	sign := ""
	if strings.HasPrefix(whole, "-") {
		sign, whole = "-", whole[1:]
	}
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if hasFraction {
		whole += "." + fraction
	}
	return sign + whole
}
