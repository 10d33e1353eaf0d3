package pipe

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// Limits of what ParseFittings takes for a fitting of a pond.
const (
	mostItems  = 100
	mostWords  = 6 // of a name
	mostCount  = 1000
	mostNumber = 10000
)

// ParseFittings reads fittings in the words of the trade, as
//
//	3 slow bends, 1 hose tail 25 in 40
//
// Commas, semicolons, new lines and "and" stand between them. Each begins with how many there are. Sizes are true bores in
// millimetres: "hose tail 25 in 40" has a hole of 25 in a hose of 40, "reducer 50 to 40 at 30°" is a cone, "sudden change
// 50 to 40" a step, "rounded entry radius 10" has an edge rounded to 10, and "valve Kv 25" passes 25 m³/h at one bar.
// What it returns, String gives back. The error is input.Errors with every fault and no field.
func ParseFittings(text string) (Fittings, error) {
	text = strings.NewReplacer(";", ",", "\n", ",", ", and ", ",", " and ", ",").Replace(strings.ToLower(text))
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	items := strings.Split(text, ",")
	var errs input.Errors
	if len(items) > mostItems {
		errs.Add("", fmt.Sprintf("give %d at most", mostItems), "%d fittings", len(items))
		return nil, errs
	}
	parsed := make(Fittings, 0, len(items))
	for i, item := range items {
		f, problem, change := parseItem(item)
		if problem != "" {
			errs.Add("", change, "fitting %d, %q: %s", i+1, clip(strings.TrimSpace(item)), problem)
			continue
		}
		parsed = append(parsed, f)
	}
	if len(errs) > 0 {
		return nil, errs
	}
	return parsed, nil
}

// parseItem reads one fitting; problem is empty where all is well.
func parseItem(item string) (f Fitted, problem, change string) {
	tokens := strings.Fields(strings.NewReplacer("°", " ", "×", "x", "-", " ").Replace(strings.ToLower(item)))
	if len(tokens) == 0 {
		return f, "nothing between two commas", "leave out the comma"
	}
	count, err := strconv.Atoi(strings.TrimSuffix(tokens[0], "x"))
	if err != nil || count < 1 || count > mostCount {
		return f, "it does not begin with how many", `say how many, as "3 slow bends"`
	}
	tokens = tokens[1:]
	if len(tokens) > 0 && tokens[0] == "x" {
		tokens = tokens[1:]
	}
	kind, sizes := longestName(tokens)
	if kind == 0 {
		return f, "no fitting of that name", suggestion(tokens)
	}
	f = Fitted{Kind: kind, Count: count}
	if !f.takeSizes(rows[kind].law, sizes) {
		return f, "its sizes do not read", "write it as " + strconv.Quote(example(kind))
	}
	var errs input.Errors
	if f.check(&errs, ""); len(errs) > 0 {
		return f, errs[0].Problem, errs[0].Change
	}
	return f, "", ""
}

// longestName finds the longest beginning that names a fitting, and what is left.
func longestName(tokens []string) (Kind, []string) {
	for n := min(len(tokens), mostWords); n > 0; n-- {
		if kind, ok := words[plain(strings.Join(tokens[:n], " "))]; ok {
			return kind, tokens[n:]
		}
	}
	return 0, nil
}

// takeSizes reads the words after the name. Units may be left out.
func (f *Fitted) takeSizes(l law, tokens []string) bool {
	var from, to, angle, one float64
	ok := false
	switch l {
	case byTail:
		ok = scan(tokens, &to, "in", &from)
	case byStep:
		ok = scan(tokens, &from, "to", &to)
	case byCone:
		ok = scan(tokens, &from, "to", &to) || scan(tokens, &from, "to", &to, "at", &angle) && angle > 0
	case byRadius:
		ok = scan(tokens, "radius", &one)
	case byKv:
		ok = scan(tokens, "kv", &one)
	default:
		return len(tokens) == 0
	}
	f.From, f.To, f.Angle = unit.Millimetres(from), unit.Millimetres(to), unit.Degrees(angle)
	switch l {
	case byRadius:
		f.Radius = unit.Millimetres(one)
	case byKv:
		f.Kv = unit.CubicMetresPerHour(one)
	}
	return ok
}

// scan matches tokens with words and numbers in order. Units after a number are passed over.
func scan(tokens []string, pattern ...any) bool {
	tokens = slices.DeleteFunc(slices.Clone(tokens), func(t string) bool { return t == "mm" || t == "degrees" || t == "m³/h" })
	if len(tokens) != len(pattern) {
		return false
	}
	for i, want := range pattern {
		switch want := want.(type) {
		case string:
			if tokens[i] != want {
				return false
			}
		case *float64:
			x, ok := number(strings.TrimSuffix(tokens[i], "mm"))
			if !ok {
				return false
			}
			*want = x
		}
	}
	return true
}

// number reads a plain decimal number above 0 with three decimals at most: no exponents, no fractions, no signs.
func number(text string) (float64, bool) {
	if strings.Trim(text, "0123456789.") != "" {
		return 0, false
	}
	if _, decimals, found := strings.Cut(text, "."); found && len(decimals) > 3 {
		return 0, false
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && x > 0 && x <= mostNumber
}

// example is how a fitting of that kind is written.
func example(k Kind) string {
	f := Fitted{Kind: k, Count: 1, Radius: unit.Millimetres(10), Kv: unit.CubicMetresPerHour(25)}
	f.From, f.To = unit.Millimetres(40), unit.Millimetres(25)
	return f.String()
}

// suggestion names the fitting whose name is nearest to what was written.
func suggestion(tokens []string) string {
	written := clip(plain(strings.Join(tokens[:min(len(tokens), mostWords)], " ")))
	best, nearest := "", len(written)/2+1
	for k := Elbow90; k.known(); k++ {
		if d := distance(written, rows[k].one); d < nearest {
			best, nearest = rows[k].one, d
		}
	}
	if best == "" {
		return "use a name such as slow bend, elbow, tee through, ball valve or hose tail"
	}
	return "did you mean " + strconv.Quote(best) + "?"
}

// distance is the least number of letters to put in, leave out or replace (Levenshtein).
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			replaced := diagonal
			if a[i] != b[j] {
				replaced++
			}
			diagonal = row[j+1]
			row[j+1] = min(replaced, diagonal+1, row[j]+1)
		}
	}
	return row[len(b)]
}

// clip keeps a message short whatever was written.
func clip(s string) string {
	const most = 60
	runes := []rune(s)
	if len(runes) <= most {
		return s
	}
	return string(runes[:most]) + "…"
}
