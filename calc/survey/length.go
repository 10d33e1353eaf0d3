package survey

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// A scale is a unit of length as it is written on site.
type scale struct {
	names []string
	one   unit.Length
}

var (
	metre      = scale{names: []string{"m", "metre", "metres", "meter", "meters"}, one: unit.Metres(1)}
	centimetre = scale{names: []string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}, one: unit.Centimetres(1)}
	millimetre = scale{names: []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}, one: unit.Millimetres(1)}
	yard       = scale{names: []string{"yd", "yard", "yards"}, one: unit.Feet(3)}
	foot       = scale{names: []string{"ft", "foot", "feet", "'", "′", "’"}, one: unit.Feet(1)}
	inch       = scale{names: []string{"in", "inch", "inches", "\"", "″", "”"}, one: unit.Inches(1)}
)

// larger says which units may stand before another in one length.
func (s scale) larger(than scale) bool {
	metric := func(s scale) bool { return s.names[0] == "m" || s.names[0] == "cm" || s.names[0] == "mm" }
	return metric(s) == metric(than) && s.one > than.one
}

func scales() []scale { return []scale{metre, centimetre, millimetre, yard, foot, inch} }

// fractions as they are written on tapes.
var fractions = map[rune]float64{
	'½': 1. / 2, '¼': 1. / 4, '¾': 3. / 4, '⅛': 1. / 8, '⅜': 3. / 8, '⅝': 5. / 8, '⅞': 7. / 8, '⅓': 1. / 3, '⅔': 2. / 3,
}

// ParseLength reads a length as people write it: "3.4 m", "45 cm", "12 ft 3 in", "12' 3½\"", "5 3/4 in", "-0.4 m". It does not
// guess: a bare number is refused unless it is 0, and so is a comma, which may be a decimal point or not. The error is an
// input.Error without a field.
func ParseLength(text string) (unit.Length, error) { return parseLength(text, nil) }

// parseLength takes a bare number to be in the unit assumed, if there is one.
func parseLength(text string, assumed *scale) (unit.Length, error) {
	r := reader{whole: text, rest: strings.TrimSpace(text)}
	below := strings.HasPrefix(r.rest, "-")
	r.rest = strings.TrimSpace(strings.TrimPrefix(r.rest, "-"))
	length, err := r.length(assumed)
	if below {
		length = -length
	}
	return length, err
}

// reader eats a text from its front.
type reader struct{ whole, rest string }

func (r *reader) wrong(change, problem string, args ...any) error {
	return input.Error{Problem: fmt.Sprintf("%q ", r.whole) + fmt.Sprintf(problem, args...), Change: change}
}

const asWritten = `write it as "3.4 m", "45 cm" or "12 ft 3 in"`

func (r *reader) length(assumed *scale) (sum unit.Length, err error) {
	if r.rest == "" {
		return 0, r.wrong(asWritten, "is no length")
	}
	if strings.Contains(r.rest, ",") {
		return 0, r.wrong("write a point for the decimals and nothing between thousands", "has a comma, which is read in two ways")
	}
	var last *scale
	for r.rest != "" {
		n, err := r.number()
		if err != nil {
			return 0, err
		}
		s, err := r.scale(n, last == nil, assumed)
		if err != nil {
			return 0, err
		}
		part := unit.Length(n) * s.one
		if last != nil && (!last.larger(s) || part >= last.one) {
			return 0, r.wrong(asWritten, "has %g %s after a number of %s", n, s.names[0], last.names[0])
		}
		sum, last = sum+part, &s
	}
	return sum, nil
}

// number reads "12", "3.4", "5 3/4", "3½" or "3/4".
func (r *reader) number() (float64, error) {
	digits := r.while(func(c rune) bool { return c >= '0' && c <= '9' || c == '.' })
	if after, found := strings.CutPrefix(r.rest, "/"); found && !strings.Contains(digits, ".") {
		r.rest = after
		return r.fraction(digits)
	}
	n := 0.0
	if digits != "" {
		var err error
		if n, err = strconv.ParseFloat(digits, 64); err != nil || n > 1e7 {
			return 0, r.wrong(asWritten, "is no length: %q is no number", digits)
		}
	}
	for c, part := range fractions {
		if after, found := strings.CutPrefix(r.rest, string(c)); found && !strings.Contains(digits, ".") {
			r.rest = after
			return n + part, nil
		}
	}
	if digits == "" {
		return 0, r.wrong(asWritten, "is no length: there is no number before %q", r.rest)
	}
	if before, _, found := strings.Cut(r.rest, "/"); found && isWhole(strings.TrimSpace(before)) && !strings.Contains(digits, ".") {
		r.rest = strings.TrimSpace(r.rest)
		part, err := r.number()
		return n + part, err
	}
	return n, nil
}

// fraction reads what stands below the stroke.
func (r *reader) fraction(above string) (float64, error) {
	below := r.while(func(c rune) bool { return c >= '0' && c <= '9' })
	a, errA := strconv.Atoi(above)
	b, errB := strconv.Atoi(below)
	if errA != nil || errB != nil || a == 0 || a >= b {
		return 0, r.wrong(asWritten, "has no proper fraction in %s/%s", above, below)
	}
	return float64(a) / float64(b), nil
}

func isWhole(text string) bool {
	_, err := strconv.Atoi(text)
	return err == nil
}

// scale reads the unit, or falls back on the one assumed where the whole length is a bare number.
func (r *reader) scale(n float64, first bool, assumed *scale) (scale, error) {
	r.rest = strings.TrimSpace(r.rest)
	if mark, found := r.mark(); found {
		return mark, nil
	}
	word := r.while(unicode.IsLetter)
	for _, s := range scales() {
		for _, name := range s.names {
			if word == name {
				r.rest = strings.TrimSpace(strings.TrimPrefix(r.rest, "."))
				return s, nil
			}
		}
	}
	switch {
	case word != "" || r.rest != "":
		return scale{}, r.wrong(asWritten, "has no unit of length in %q", word+r.rest)
	case first && n == 0:
		return metre, nil
	case first && assumed != nil:
		return *assumed, nil
	case first:
		return scale{}, r.wrong(asWritten, "may be %g m, %g ft or another unit", n, n)
	default:
		return scale{}, r.wrong(asWritten, "ends in %g without a unit", n)
	}
}

// mark reads the marks of feet and inches, of which two feet marks are one inch mark.
func (r *reader) mark() (scale, bool) {
	if after, found := strings.CutPrefix(r.rest, "''"); found {
		r.rest = strings.TrimSpace(after)
		return inch, true
	}
	for _, s := range []scale{foot, inch} {
		for _, name := range s.names[3:] {
			if after, found := strings.CutPrefix(r.rest, name); found {
				r.rest = strings.TrimSpace(after)
				return s, true
			}
		}
	}
	return scale{}, false
}

func (r *reader) while(is func(rune) bool) string {
	end := strings.IndexFunc(r.rest, func(c rune) bool { return !is(c) })
	if end < 0 {
		end = len(r.rest)
	}
	taken := r.rest[:end]
	r.rest = r.rest[end:]
	return taken
}
