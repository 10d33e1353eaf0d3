package intake

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	csvcatalogue "example.com/pondwright/plugins/csv"
)

// The columns a curve can be made of, by their names in the contract.
const (
	colNumber    = "item_number"
	colSeries    = "series"
	colFlow      = "flow_l_per_h"
	colHead      = "head_m"
	colPower     = "power_w"
	colLabelFlow = "label_flow_l_per_h"
	colLabelHead = "label_head_m"
	colPoints    = "points"
)

// column is one column of a table as it was understood.
type column struct {
	index   int
	heading string
	name    string
	point   int     // of numbered columns (flow_1), from 1; 0 of others
	head    float64 // of a column of flows at one head, in m
	atHead  bool
	turn    func(float64) float64
	guessed string // what was taken for granted
}

// value turns a number of the file into the contract's unit.
func (c column) value(x float64) float64 {
	if c.turn == nil {
		return x
	}
	return csvcatalogue.Tidy(c.turn(x))
}

// back turns a number into the unit of the file. Every unit goes through zero.
func (c column) back(x float64) float64 {
	if c.turn == nil {
		return x
	}
	return csvcatalogue.Tidy(x / c.turn(1))
}

// Words that merchants head their columns with, and the name each means. Terms of the trade in four languages.
var words = map[string]string{
	"item_number": colNumber, "item": colNumber, "number": colNumber, "no": colNumber, "nr": colNumber, "sku": colNumber, "code": colNumber,
	"article": colNumber, "article_number": colNumber, "artikel": colNumber, "artikelnummer": colNumber, "référence": colNumber, "id": colNumber, "pump": colNumber,
	"series": colSeries, "family": colSeries, "range": colSeries, "serie": colSeries, "baureihe": colSeries,
	"flow": "flow", "q": "flow", "flow_rate": "flow", "rate": "flow", "durchfluss": "flow", "fördermenge": "flow", "volumenstrom": "flow", "débit": "flow", "debit": "flow", "caudal": "flow",
	"head": "head", "h": "head", "lift": "head", "height": "head", "förderhöhe": "head", "höhe": "head", "hauteur": "head", "pressure": "head", "druck": "head", "altura": "head",
	"power": "power", "p": "power", "p1": "power", "watts": "power", "watt": "power", "leistung": "power", "leistungsaufnahme": "power", "puissance": "power", "potencia": "power",
	"label_flow": "label_flow", "max_flow": "label_flow", "qmax": "label_flow", "q_max": "label_flow", "flow_max": "label_flow",
	"label_head": "label_head", "max_head": "label_head", "hmax": "label_head", "h_max": "label_head", "head_max": "label_head",
	"points": colPoints, "curve": colPoints, "kennlinie": colPoints,
}

// Units as people write them, and as the contract does.
var units = map[string]string{
	"l/h": "l_per_h", "lph": "l_per_h", "ltr/h": "l_per_h", "l_per_h": "l_per_h", "l/hr": "l_per_h", "l/min": "l_per_min", "lpm": "l_per_min", "l_per_min": "l_per_min", "l/s": "l_per_s", "l_per_s": "l_per_s",
	"m3/h": "m3_per_h", "m³/h": "m3_per_h", "cbm/h": "m3_per_h", "m3_per_h": "m3_per_h",
	"us_gal/h": "us_gal_per_h", "us_gph": "us_gal_per_h", "us_gal_per_h": "us_gal_per_h", "uk_gal/h": "uk_gal_per_h", "uk_gph": "uk_gal_per_h", "uk_gal_per_h": "uk_gal_per_h",
	"us_gal/min": "us_gal_per_min", "us_gpm": "us_gal_per_min", "us_gal_per_min": "us_gal_per_min", "uk_gpm": "uk_gal_per_min", "uk_gal_per_min": "uk_gal_per_min", "uk_gal/min": "uk_gal_per_min",
	"gph": "gal_per_h", "gal/h": "gal_per_h", "gpm": "gal_per_min", "gal/min": "gal_per_min",
	"m": "m", "mwc": "m", "mws": "m", "mce": "m", "metres": "m", "meter": "m", "ft": "ft", "feet": "ft", "kpa": "kpa", "bar": "bar", "mbar": "mbar", "psi": "psi", "w": "w", "watt": "w", "watts": "w", "kw": "kw",
}

var (
	numbered   = regexp.MustCompile(`^(.*?)[ _]?([0-9]{1,3})$`)
	flowAtHead = regexp.MustCompile(`^(?:flow at |at |@ ?)?([0-9]+(?:[.,][0-9]+)?) ?(m|ft|kpa|bar)$`)
	brackets   = regexp.MustCompile(`^(.*?)[\s_]*[\[(]([^\])]+)[\])]$`)
)

// understand reads one heading. A heading that is none of a curve's gives an empty name.
func understand(heading string) (column, error) {
	plain := strings.ToLower(strings.Join(strings.Fields(heading), " "))
	if m := flowAtHead.FindStringSubmatch(plain); m != nil {
		h, err := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
		if err != nil {
			return column{}, err
		}
		as, err := csvcatalogue.PumpHeading("head_" + m[2])
		if err != nil {
			return column{}, err
		}
		if as.Turn != nil {
			h = csvcatalogue.Tidy(as.Turn(h))
		}
		return column{heading: heading, name: colFlow, atHead: true, head: h, guessed: "flows at this head, in L/h since no unit is given"}, nil
	}
	if h, err := csvcatalogue.PumpHeading(heading); err == nil {
		return column{heading: heading, name: h.Column, turn: h.Turn}, nil
	}
	word, unit := plain, ""
	if m := brackets.FindStringSubmatch(plain); m != nil {
		word, unit = m[1], m[2]
	} else if before, after, ok := strings.Cut(plain, " in "); ok {
		word, unit = before, after
	} else if i := strings.LastIndexAny(plain, " _,"); i > 0 && units[strings.ReplaceAll(plain[i+1:], " ", "_")] != "" {
		word, unit = plain[:i], plain[i+1:]
	}
	word = strings.Trim(strings.ReplaceAll(word, " ", "_"), "_.,:")
	point := 0
	if words[word] == "" {
		if m := numbered.FindStringSubmatch(word); m != nil && (words[m[1]] == "flow" || words[m[1]] == "head" || words[m[1]] == "power") {
			word = m[1]
			point, _ = strconv.Atoi(m[2])
		}
	}
	name := words[word]
	if name == "" {
		return column{heading: heading}, nil
	}
	return withUnit(heading, name, strings.ReplaceAll(strings.Trim(unit, " ."), " ", "_"), point)
}

func withUnit(heading, name, unit string, point int) (column, error) {
	usual := map[string]string{"flow": "l_per_h", "head": "m", "power": "w", "label_flow": "l_per_h", "label_head": "m"}[name]
	if usual == "" {
		return column{heading: heading, name: name}, nil
	}
	c := column{heading: heading, point: point}
	known := units[unit]
	switch {
	case unit == "":
		known, c.guessed = usual, fmt.Sprintf("in %s, since no unit is given", map[string]string{"l_per_h": "L/h", "m": "m", "w": "W"}[usual])
	case known == "":
		return c, fmt.Errorf("column %q: the unit %q is not known; write L/h, L/min, m³/h, US gal/h, m, ft, kPa, bar, W or kW", heading, unit)
	}
	as, err := csvcatalogue.PumpHeading(name + "_" + known)
	if err != nil {
		return c, fmt.Errorf("column %q: %w", heading, err)
	}
	c.name, c.turn = as.Column, as.Turn
	return c, nil
}
