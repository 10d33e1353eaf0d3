package pipe

import (
	"math"
	"strconv"
	"strings"

	"example.com/pondwright/calc/unit"
)

// Fittings is a list of fittings that can say itself in the words of the trade.
type Fittings []Fitted

// String is the list as ParseFittings reads it: "3 slow bends, 1 hose tail 25 in 40".
func (fs Fittings) String() string {
	items := make([]string, len(fs))
	for i, f := range fs {
		items[i] = f.String()
	}
	return strings.Join(items, ", ")
}

// String is the fittings as ParseFittings reads them: "1 reducer 50 to 40". Sizes are in millimetres, to a thousandth.
func (f Fitted) String() string {
	if !f.Kind.known() {
		return strconv.Itoa(f.Count) + " " + f.Kind.String()
	}
	row := rows[f.Kind]
	word := row.many
	if f.Count == 1 {
		word = row.one
	}
	return strconv.Itoa(f.Count) + " " + word + f.sizes(row.law)
}

// sizes are the words after the name.
func (f Fitted) sizes(l law) string {
	switch {
	case l == byTail && f.From != 0:
		return " " + millimetres(f.To) + " in " + millimetres(f.From)
	case l == byStep, l == byCone && f.Angle == 0:
		return " " + millimetres(f.From) + " to " + millimetres(f.To)
	case l == byCone:
		return " " + millimetres(f.From) + " to " + millimetres(f.To) + " at " + thousandths(f.Angle.Degrees()) + "°"
	case l == byRadius:
		return " radius " + millimetres(f.Radius)
	case l == byKv:
		return " Kv " + thousandths(f.Kv.CubicMetresPerHour())
	default:
		return ""
	}
}

func millimetres(l unit.Length) string { return thousandths(l.Millimetres()) }

func thousandths(x float64) string {
	return strconv.FormatFloat(math.Round(x*1000)/1000, 'f', -1, 64)
}

// words leads from each name of a fitting, made plain, to its kind.
var words = func() map[string]Kind {
	m := map[string]Kind{}
	for k := Elbow90; k.known(); k++ {
		row := rows[k]
		for _, name := range append([]string{row.name, row.one, row.many}, row.also...) {
			m[plain(name)] = k
		}
	}
	return m
}()

// plain is a name in lower case and singular, with single spaces and without hyphens, commas and degree signs.
func plain(name string) string {
	fields := strings.Fields(strings.NewReplacer("-", " ", ",", " ", "°", " ").Replace(strings.ToLower(name)))
	for i, w := range fields {
		fields[i] = singular(w)
	}
	return strings.Join(fields, " ")
}

func singular(word string) string {
	switch {
	case strings.HasSuffix(word, "ies"):
		return strings.TrimSuffix(word, "ies") + "y"
	case strings.HasSuffix(word, "ches"):
		return strings.TrimSuffix(word, "es")
	case len(word) > 2 && strings.HasSuffix(word, "s") && !strings.HasSuffix(word, "ss"):
		return strings.TrimSuffix(word, "s")
	default:
		return word
	}
}
