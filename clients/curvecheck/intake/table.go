package intake

import (
	"errors"
	"fmt"
	"io"
	"strings"

	csvcatalogue "example.com/pondwright/plugins/csv"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// An Item is one curve of a file, and what of it could not be read.
type Item struct {
	Message  *pondwrightv1.CurveItem
	Row      int // of the file, the first of the curve
	Problems []Problem
}

// A Problem is one cell that could not be read. What it should have held is missing from the curve.
type Problem struct {
	Row    int
	Column string
	Text   string
}

func (p Problem) String() string {
	if p.Column == "" {
		return fmt.Sprintf("row %d: %s", p.Row, p.Text)
	}
	return fmt.Sprintf("row %d, column %s: %s", p.Row, p.Column, p.Text)
}

// layout is how a table lays out curves.
type layout int

const (
	long    layout = iota // a row a point
	wide                  // a row a pump, numbered columns
	points                // a row a pump, all points in one cell
	byHeads               // a row a pump, flows under heads
)

var layoutWords = map[layout]string{
	long: "a row for each point", wide: "a row for each pump, its points in numbered columns",
	points: "a row for each pump, its points in one cell", byHeads: "a row for each pump, its flows under the heads",
}

// table is a table on its way in.
type table struct {
	rows    rows
	header  csvcatalogue.Row
	columns []column
	layout  layout
	manner  manner
	ahead   *csvcatalogue.Row // read and not used yet
	extra   map[string]extra  // of pumps that have a table of their own
	name    string            // of the curve, where there is no column of numbers
}

// extra is what a table of pumps says beside the curve.
type extra struct{ power, labelFlow, labelHead *float64 }

// newTable reads the heading and makes out the layout. given are columns named by the person, heading by name.
func newTable(r rows, m manner, given map[string]string) (*table, error) {
	t := &table{rows: r, manner: m}
	header, err := r.next()
	if errors.Is(err, io.EOF) {
		return nil, errors.New("is empty: its first row has to name the columns")
	}
	if err != nil {
		return nil, err
	}
	t.header = header
	seen := map[string]string{}
	for i, heading := range header.Cells {
		heading = strings.TrimSpace(heading)
		c, err := understand(heading)
		for name, as := range given {
			if strings.EqualFold(as, heading) {
				if c, err = understand(name); err == nil {
					c.guessed = "as you said"
				}
			}
		}
		if err != nil {
			return nil, err
		}
		if c.name == "" || heading == "" {
			continue
		}
		key := fmt.Sprintf("%s %d %v", c.name, c.point, c.head)
		if before, twice := seen[key]; twice {
			return nil, fmt.Errorf("columns %q and %q both read as %s: name the right one with --column", before, heading, c.name)
		}
		seen[key], c.heading, c.index = heading, heading, i
		t.columns = append(t.columns, c)
	}
	return t, t.findLayout()
}

func (t *table) findLayout() error {
	count := map[string]int{}
	for _, c := range t.columns {
		switch {
		case c.atHead:
			count["at"]++
		case c.point > 0 && c.name == colFlow:
			count["q"]++
		case c.point > 0 && c.name == colHead:
			count["h"]++
		case c.name == colFlow, c.name == colHead, c.name == colPoints:
			count[c.name]++
		}
	}
	switch {
	case count[colFlow] == 1 && count[colHead] == 1:
		t.layout = long
	case count["q"] >= 2 && count["h"] >= 2:
		t.layout = wide
	case count[colPoints] == 1:
		t.layout = points
	case count["at"] >= 2:
		t.layout = byHeads
	default:
		return fmt.Errorf("no flows and heads can be made out in the columns %s: name them, as in --column flow_l_per_h=%q --column head_m=…",
			strings.Join(t.header.Cells, ", "), first(t.header.Cells))
	}
	return nil
}

func first(cells []string) string {
	if len(cells) == 0 {
		return ""
	}
	return cells[0]
}

// Reads are one sentence for each column, and one for the layout.
func (t *table) reads() []string {
	said := []string{"layout: " + layoutWords[t.layout] + "; " + t.manner.words()}
	used := map[int]bool{}
	for _, c := range t.columns {
		text := fmt.Sprintf("column %q is %s", c.heading, c.name)
		switch {
		case c.atHead:
			text = fmt.Sprintf("column %q is the flow at a head of %g m", c.heading, c.head)
		case c.point > 0:
			text += fmt.Sprintf(" of point %d", c.point)
		}
		if c.turn != nil {
			text += fmt.Sprintf(", turned into it by times %.6g", c.turn(1))
		}
		if c.guessed != "" {
			text += " (" + c.guessed + ")"
		}
		said = append(said, text)
		used[c.index] = true
	}
	for i, heading := range t.header.Cells {
		if heading = strings.TrimSpace(heading); heading != "" && !used[i] {
			said = append(said, fmt.Sprintf("column %q is not read", heading))
		}
	}
	return said
}

func (t *table) row() (csvcatalogue.Row, error) {
	if t.ahead != nil {
		r := *t.ahead
		t.ahead = nil
		return r, nil
	}
	return t.rows.next()
}

// next reads the next curve.
func (t *table) next() (Item, error) {
	r, err := t.row()
	if err != nil {
		return Item{}, err
	}
	item, _, err := t.gather(r)
	return item, err
}

// gather reads the curve that begins with a row, and the rows it has.
func (t *table) gather(r csvcatalogue.Row) (Item, []csvcatalogue.Row, error) {
	item := Item{Row: r.Number, Message: &pondwrightv1.CurveItem{Pump: &equipmentv1.Pump{}}}
	number, has := t.number(r)
	item.Message.ItemNumber = number
	if !has {
		item.Message.ItemNumber = t.name
		if t.layout != long {
			item.Message.ItemNumber = fmt.Sprintf("%s row %d", t.name, r.Number)
		}
	}
	all := []csvcatalogue.Row{r}
	t.take(&item, r)
	for t.layout == long {
		next, err := t.rows.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return Item{}, nil, err
		}
		if other, _ := t.number(next); other != number || len(all) >= mostPoints {
			t.ahead = &next
			break
		}
		all = append(all, next)
		t.take(&item, next)
	}
	if e, ok := t.extra[number]; ok {
		p := item.Message.GetPump()
		p.PowerW, p.LabelFlowLPerH, p.LabelHeadM = e.power, e.labelFlow, e.labelHead
	}
	return item, all, nil
}

// mostPoints bounds one curve: far more than the engine looks at, and then it says so.
const mostPoints = 5000

func (t *table) number(r csvcatalogue.Row) (string, bool) {
	for _, c := range t.columns {
		if c.name == colNumber {
			return bound(cell(r, c.index), 64), true
		}
	}
	return "", false
}

func bound(text string, letters int) string {
	if runes := []rune(text); len(runes) > letters {
		return string(runes[:letters])
	}
	return text
}

func cell(r csvcatalogue.Row, i int) string {
	if i >= len(r.Cells) {
		return ""
	}
	return strings.TrimSpace(strings.ReplaceAll(r.Cells[i], "\u00a0", " "))
}

// figure reads one cell; nil where it is empty or cannot be read.
func (t *table) figure(item *Item, r csvcatalogue.Row, c column) *float64 {
	text := cell(r, c.index)
	if text == "" || text == "-" || text == "–" {
		return nil
	}
	x, err := csvcatalogue.Number(strings.ReplaceAll(text, "−", "-"), t.manner.decimalComma)
	if err != nil {
		item.Problems = append(item.Problems, Problem{r.Number, c.heading, err.Error()})
		return nil
	}
	x = c.value(x)
	return &x
}

// take adds a row to a curve.
func (t *table) take(item *Item, r csvcatalogue.Row) {
	pump := item.Message.GetPump()
	var here equipmentv1.CurvePoint
	byNumber := map[int]*equipmentv1.CurvePoint{}
	at := func(n int) *equipmentv1.CurvePoint {
		if byNumber[n] == nil {
			byNumber[n] = &equipmentv1.CurvePoint{}
		}
		return byNumber[n]
	}
	var under []*equipmentv1.CurvePoint
	for _, c := range t.columns {
		switch {
		case c.name == colNumber:
		case c.name == colSeries:
			item.Message.Series = bound(cell(r, c.index), 64)
		case c.name == colPoints:
			pump.Curve = t.pairs(item, r, c)
		case c.atHead:
			if q := t.figure(item, r, c); q != nil {
				h := c.head
				under = append(under, &equipmentv1.CurvePoint{FlowLPerH: q, HeadM: &h})
			}
		default:
			x := t.figure(item, r, c)
			switch {
			case x == nil:
			case c.point > 0:
				put(at(c.point), c.name, x)
			case c.name == colLabelFlow:
				pump.LabelFlowLPerH = x
			case c.name == colLabelHead:
				pump.LabelHeadM = x
			case c.name == colPower && t.layout != long:
				pump.PowerW = x
			default:
				put(&here, c.name, x)
			}
		}
	}
	switch t.layout {
	case long:
		pump.Curve = append(pump.Curve, &here)
	case wide:
		for n := range 1000 {
			if p := byNumber[n]; p != nil {
				pump.Curve = append(pump.Curve, p)
			}
		}
	case byHeads:
		// Heads rise from column to column, or fall; flows go the other way.
		if n := len(under); n > 1 && under[0].GetHeadM() < under[n-1].GetHeadM() {
			for i := range n / 2 {
				under[i], under[n-1-i] = under[n-1-i], under[i]
			}
		}
		pump.Curve = under
	}
}

func put(p *equipmentv1.CurvePoint, name string, x *float64) {
	switch name {
	case colFlow:
		p.FlowLPerH = x
	case colHead:
		p.HeadM = x
	case colPower:
		p.PowerW = x
	}
}

// pairs reads "0,1.60; 300,1.51": flow and head, parted by a comma, a slash or a colon, points by semicolons or strokes.
func (t *table) pairs(item *Item, r csvcatalogue.Row, c column) []*equipmentv1.CurvePoint {
	var made []*equipmentv1.CurvePoint
	for part := range strings.FieldsFuncSeq(cell(r, c.index), func(x rune) bool { return x == ';' || x == '|' }) {
		values := strings.FieldsFunc(part, func(x rune) bool { return x == '/' || x == ':' || x == ',' || x == ' ' })
		if len(values) != 2 && len(values) != 3 {
			item.Problems = append(item.Problems, Problem{r.Number, c.heading, fmt.Sprintf("%q is not a flow and a head, as in 300,1.51", strings.TrimSpace(part))})
			continue
		}
		p := &equipmentv1.CurvePoint{}
		for i, name := range []string{colFlow, colHead, colPower}[:len(values)] {
			x, err := csvcatalogue.Number(values[i], false)
			if err != nil {
				item.Problems = append(item.Problems, Problem{r.Number, c.heading, err.Error()})
				continue
			}
			put(p, name, &x)
		}
		made = append(made, p)
	}
	return made
}
