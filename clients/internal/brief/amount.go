package brief

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// An amount is a number with its unit, as people write it.
type amount struct {
	x    float64
	unit unit
}

var leadingNumber = regexp.MustCompile(`^[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)`)

// amounts reads "3 ft" or "5 ft 6 in".
func amounts(text string) ([]amount, bool) {
	var all []amount
	for rest := strings.ToLower(strings.TrimSpace(text)); rest != ""; rest = strings.TrimSpace(rest) {
		digits := leadingNumber.FindString(rest)
		x, err := strconv.ParseFloat(digits, 64)
		if err != nil {
			return nil, false
		}
		u, after, ok := leadingUnit(strings.TrimSpace(rest[len(digits):]))
		if !ok || len(all) > 0 && (u.of != all[0].unit.of || u.also != nil) {
			return nil, false
		}
		all, rest = append(all, amount{x, u}), after
	}
	return all, len(all) > 0
}

func leadingUnit(text string) (u unit, rest string, ok bool) {
	for _, n := range inText {
		rest, found := strings.CutPrefix(text, n.name)
		if !found {
			continue
		}
		next := []rune(rest + " ")[0]
		last := []rune(n.name)[len([]rune(n.name))-1]
		if unicode.IsLetter(last) && (unicode.IsLetter(next) || next == '/' || next == '³') {
			continue // the beginning of another word
		}
		return n.unit, rest, true
	}
	return unit{}, text, false
}

// unitOf is the unit a field has in its name.
func unitOf(fd protoreflect.FieldDescriptor) (unit, bool) {
	_, u, ok := splitKey(string(fd.Name()))
	return u, ok
}

// notANumber says why a text is no number for the field, and what it would be as one.
func notANumber(w word, fd protoreflect.FieldDescriptor) (wrong, change string) {
	text := strings.TrimSpace(w.text)
	switch lower := strings.ToLower(text); {
	case number.MatchString(text):
		return quote(w.text) + " is text, for it stands in quotes", "write " + text + " without them"
	case !w.quoted && (strings.HasSuffix(lower, ".inf") || lower == ".nan"):
		return text + " is not a number to calculate with", "give " + want(fd)
	}
	given, ok := amounts(text)
	field, has := unitOf(fd)
	switch {
	case ok && has && given[0].unit.of == field.of:
		return fmt.Sprintf("%s is text with a unit, and the field is in %s", quote(w.text), field.words), "write " + converted(given, field)
	case ok && has:
		return fmt.Sprintf("%s is a %s, and the field is in %s", quote(w.text), given[0].unit.of, field.words), "give " + want(fd)
	case ok:
		return quote(w.text) + " is text with a unit, and the field has none", "give " + want(fd)
	case strings.ContainsAny(text, "0123456789"):
		return quote(w.text) + " is not a plain decimal number", "write digits, with a point before the fraction and nothing between thousands: " + want(fd)
	}
	return quote(w.text) + " is not a number", "give " + want(fd)
}

// converted is the sum of the amounts in the field's unit, in every reading of it.
func converted(given []amount, field unit) string {
	if u := given[0].unit; u.also != nil {
		var texts []string
		for _, r := range u.also {
			texts = append(texts, decimal(given[0].x*r.factor/field.factor)+" for "+r.where)
		}
		return strings.Join(texts, ", ")
	}
	var sum float64
	for _, a := range given {
		sum += a.unit.in(field, a.x)
	}
	return decimal(sum)
}

// factorText says what one of the unit is in the field's: "1 cm = 0.01 m".
func factorText(u, field unit) string {
	switch {
	case u.also != nil:
		return fmt.Sprintf("1 %s is %s %s in the UK and %s %s in the US: say which is meant", u.symbol,
			decimal(u.also[0].factor/field.factor), field.symbol, decimal(u.also[1].factor/field.factor), field.symbol)
	case u.symbol == "°F":
		return "°C = (°F - 32) / 1.8"
	case u.offset != 0:
		return fmt.Sprintf("%s = %s - %s", field.symbol, u.symbol, decimal(-u.offset))
	case u.of == share:
		return "1 is 100 %"
	}
	return fmt.Sprintf("1 %s = %s %s", u.symbol, decimal(u.factor/field.factor), field.symbol)
}

// decimal writes a number to ten significant digits, which hides the last bits of a conversion and nothing else.
func decimal(x float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 10, 64), 64)
	if err != nil || math.IsInf(rounded, 0) {
		return "a number too large"
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
