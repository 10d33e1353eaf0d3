package chart

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/pondwright/clients/internal/figure"
)

// mostRows of a table made from lines: a reader listens to them one by one.
const mostRows = 13

// sentence tells each line by its ends and its highest point, and each mark.
func (l Lines) sentence() string {
	var said []string
	for _, one := range l.Lines {
		if len(one.Points) == 0 || one.Name == "" {
			continue
		}
		first, last := one.Points[0], one.Points[len(one.Points)-1]
		top := slices.MaxFunc(one.Points, func(a, b Point) int {
			switch {
			case a.Y < b.Y:
				return -1
			case a.Y > b.Y:
				return 1
			}
			return 0
		})
		text := fmt.Sprintf("%s goes from %s at %s to %s at %s", one.Name, l.Y.with(first.Y), l.X.with(first.X), l.Y.with(last.Y), l.X.with(last.X))
		if top != first && top != last {
			text += fmt.Sprintf("; it is highest at %s, with %s", l.X.with(top.X), l.Y.with(top.Y))
		}
		said = append(said, capital(text)+".")
	}
	for _, m := range l.Marks {
		said = append(said, capital(fmt.Sprintf("%s: %s at %s.", m.Name, l.Y.with(m.At.Y), l.X.with(m.At.X))))
	}
	for _, limit := range l.Limits {
		said = append(said, capital(fmt.Sprintf("%s: %s.", limit.Name, l.Y.with(limit.Y))))
	}
	return strings.Join(said, " ")
}

// table sets the lines side by side where they have the same places along the axis, and below one another where not.
func (l Lines) table() Table {
	first := l.Lines[0].Points
	for _, one := range l.Lines[1:] {
		if !slices.EqualFunc(first, one.Points, func(a, b Point) bool { return a.X == b.X }) {
			return l.longTable()
		}
	}
	t := Table{Head: []string{l.X.label()}}
	for _, one := range l.Lines {
		name := l.Y.label()
		if one.Name != "" {
			name = one.Name + ": " + name
		}
		t.Head = append(t.Head, name)
	}
	rows := shown(len(first))
	for _, i := range rows {
		row := []string{l.X.plain(first[i].X)}
		for _, one := range l.Lines {
			row = append(row, figure.Number(one.Points[i].Y))
		}
		t.Rows = append(t.Rows, row)
	}
	if len(rows) < len(first) {
		t.Note = fmt.Sprintf("%d of %d rows.", len(rows), len(first))
	}
	return t
}

func (l Lines) longTable() Table {
	t := Table{Head: []string{"Line", l.X.label(), l.Y.label()}}
	all := 0
	for _, one := range l.Lines {
		all += len(one.Points)
		for _, i := range shown(len(one.Points)) {
			t.Rows = append(t.Rows, []string{one.Name, l.X.plain(one.Points[i].X), figure.Number(one.Points[i].Y)})
		}
	}
	if len(t.Rows) < all {
		t.Note = fmt.Sprintf("%d of %d rows.", len(t.Rows), all)
	}
	return t
}

func (a Axis) plain(x float64) string {
	if i := slices.IndexFunc(a.Ticks, func(t Tick) bool { return t.At == x }); i >= 0 {
		return a.Ticks[i].Name
	}
	return figure.Number(x)
}

// shown are the rows to tell of n: all of few, and of many some evenly apart with both ends among them.
func shown(n int) []int { return shownOf(n, mostRows) }

func shownOf(n, most int) []int {
	var rows []int
	for i := range min(n, most) {
		if n <= most {
			rows = append(rows, i)
		} else {
			rows = append(rows, i*(n-1)/(most-1))
		}
	}
	return rows
}

// capital begins a sentence.
func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + text[size:]
}
