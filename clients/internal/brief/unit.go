package brief

import (
	"cmp"
	"slices"
	"strings"
)

// A measure is what a unit is of.
type measure string

const (
	length      measure = "length"
	volume      measure = "volume"
	flow        measure = "flow"
	temperature measure = "temperature"
	power       measure = "power"
	share       measure = "share"
)

// A unit is one that a field has in its name, or that people write instead.
type unit struct {
	of     measure
	symbol string
	words  string // in the plural: "metres"
	factor float64
	offset float64 // added before the factor: only temperatures have one
	// also are other readings of the same name, such as the gallon's.
	also []reading
	// names are all the ways it is written, in lower case; in a key, "_" stands for a space and "_per_" for a stroke.
	names []string
}

// A reading is one meaning of a name that has several.
type reading struct {
	where  string // "US gallons"
	factor float64
}

// The factors lead to the metre, litre, litre an hour, degree Celsius, watt and per cent. Foot, inch and yard are exact by
// the international agreement of 1959; the imperial gallon is 4.54609 L by the United Kingdom's regulations on units; the
// US gallon is 231 cubic inches.
const (
	foot      = 0.3048
	ukGallon  = 4.54609
	usGallon  = 3.785411784
	perMinute = 60
)

var units = []unit{
	{of: length, symbol: "m", words: "metres", factor: 1, names: []string{"m", "metre", "metres", "meter", "meters"}},
	{of: length, symbol: "cm", words: "centimetres", factor: 0.01, names: []string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}},
	{of: length, symbol: "mm", words: "millimetres", factor: 0.001, names: []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}},
	{of: length, symbol: "ft", words: "feet", factor: foot, names: []string{"ft", "foot", "feet", "'", "′"}},
	{of: length, symbol: "in", words: "inches", factor: foot / 12, names: []string{"in", "inch", "inches", `"`, "″"}},
	{of: length, symbol: "yd", words: "yards", factor: 3 * foot, names: []string{"yd", "yard", "yards"}},

	{of: volume, symbol: "L", words: "litres", factor: 1, names: []string{"l", "litre", "litres", "liter", "liters"}},
	{of: volume, symbol: "m³", words: "cubic metres", factor: 1000, names: []string{"m3", "m³"}},
	{of: volume, symbol: "UK gal", words: "UK gallons", factor: ukGallon, names: []string{"uk gal", "uk gallon", "uk gallons", "imp gal", "imperial gallon", "imperial gallons"}},
	{of: volume, symbol: "US gal", words: "US gallons", factor: usGallon, names: []string{"us gal", "us gallon", "us gallons"}},
	{of: volume, symbol: "gal", words: "gallons", factor: ukGallon, also: gallons(1), names: []string{"gal", "gals", "gallon", "gallons"}},

	{of: flow, symbol: "L/h", words: "litres an hour", factor: 1, names: []string{"l/h", "lph", "l/hr", "l per h", "litres/hour", "liters/hour", "litres per hour", "litres an hour"}},
	{of: flow, symbol: "L/min", words: "litres a minute", factor: perMinute, names: []string{"l/min", "lpm", "litres/minute", "liters/minute"}},
	{of: flow, symbol: "L/s", words: "litres a second", factor: 3600, names: []string{"l/s", "lps", "litres/second", "liters/second"}},
	{of: flow, symbol: "m³/h", words: "cubic metres an hour", factor: 1000, names: []string{"m3/h", "m³/h", "m3/hr"}},
	{of: flow, symbol: "UK gal/h", words: "UK gallons an hour", factor: ukGallon, names: []string{"uk gal/h", "uk gph", "imp gph"}},
	{of: flow, symbol: "US gal/h", words: "US gallons an hour", factor: usGallon, names: []string{"us gal/h", "us gph"}},
	{of: flow, symbol: "gal/h", words: "gallons an hour", factor: ukGallon, also: gallons(1), names: []string{"gph", "gal/h", "gal/hr", "gallons/hour"}},
	{of: flow, symbol: "gal/min", words: "gallons a minute", factor: ukGallon * perMinute, also: gallons(perMinute), names: []string{"gpm", "gal/min", "gallons/minute"}},

	{of: temperature, symbol: "°C", words: "degrees Celsius", factor: 1, names: []string{"c", "°c", "celsius", "deg c"}},
	{of: temperature, symbol: "°F", words: "degrees Fahrenheit", factor: 1 / 1.8, offset: -32, names: []string{"f", "°f", "fahrenheit", "deg f"}},
	{of: temperature, symbol: "K", words: "kelvins", factor: 1, offset: -273.15, names: []string{"k", "kelvin"}},

	{of: power, symbol: "W", words: "watts", factor: 1, names: []string{"w", "watt", "watts"}},
	{of: power, symbol: "kW", words: "kilowatts", factor: 1000, names: []string{"kw", "kilowatt", "kilowatts"}},

	{of: share, symbol: "%", words: "per cent", factor: 1, names: []string{"percent", "pct", "%", "per cent"}},
	{of: share, symbol: "fraction", words: "fractions of one", factor: 100, names: []string{"fraction", "ratio"}},
}

func gallons(each float64) []reading {
	return []reading{{"UK gallons", ukGallon * each}, {"US gallons", usGallon * each}}
}

// A unitName is one way to write a unit.
type unitName struct {
	name string
	unit unit
}

// inText and inKeys are all names of units, the longest first, as they are written after a number and at the end of a key.
var inText, inKeys = unitNames(strings.NewReplacer()), unitNames(strings.NewReplacer(" ", "_", "/", "_per_"))

func unitNames(how *strings.Replacer) []unitName {
	var all []unitName
	for _, u := range units {
		for _, name := range u.names {
			all = append(all, unitName{how.Replace(name), u})
		}
	}
	slices.SortStableFunc(all, func(a, b unitName) int { return cmp.Compare(len(b.name), len(a.name)) })
	return all
}

// splitKey takes the unit off the end of a key: "depth" and metres of "depth_m". A price "per_m" is no length.
func splitKey(key string) (stem string, u unit, ok bool) {
	for _, n := range inKeys {
		stem, found := strings.CutSuffix(strings.ToLower(key), "_"+n.name)
		if found && stem != "" && !strings.HasSuffix(stem, "_per") {
			return stem, n.unit, true
		}
	}
	return key, unit{}, false
}

// in is the value in another unit of the same measure.
func (u unit) in(other unit, x float64) float64 {
	return (x+u.offset)*u.factor/other.factor - other.offset
}
