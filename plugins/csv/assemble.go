package csvcatalogue

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.com/pondwright/plugins/contract"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// entry is an item on its way into the catalogue, with the rows it is made of.
type entry struct {
	label  string // of the sheet
	record record
	item   *equipmentv1.Item
	curve  []record // the rows of its pump curve, in the order of the file
}

// assemble makes items of the rows: curves join their pumps, and everything is checked as the engine will check it, so that
// what is wrong can be named by file, row and column.
func assemble(items []entry, curves string, points []record, checker *contract.Checker) []result {
	pumps := make(map[string]*entry)
	for i := range items {
		if items[i].item.GetPump() != nil {
			pumps[items[i].record.number] = &items[i]
		}
	}
	orphans := make(map[string][]contract.Problem)
	for _, point := range points {
		pump, ok := pumps[point.number]
		if ok {
			pump.curve = append(pump.curve, point)
			pump.item.GetPump().Curve = append(pump.item.GetPump().Curve, point.message.(*equipmentv1.CurvePoint))
			continue
		}
		if point.number != "" {
			point.problems = append(point.problems, problemAt(place{curves, point.row.number, numberColumn}, "no pump has the number %q", point.number))
		}
		orphans[point.number] = append(orphans[point.number], point.problems...)
	}
	results := make([]result, 0, len(items)+len(orphans))
	doubles := sameNumber(items)
	for _, e := range items {
		results = append(results, e.finish(curves, doubles[e.record.number], checker))
	}
	for _, number := range slices.Sorted(maps.Keys(orphans)) {
		results = append(results, result{rejected: &contract.Rejected{ItemNumber: number, Problems: orphans[number]}})
	}
	return results
}

// result is an item, or why there is none.
type result struct {
	item     *equipmentv1.Item
	rejected *contract.Rejected
}

// finish checks an entry. The contract's checks come last: of a row that cannot be read they would only say so again.
func (e entry) finish(curves string, places []place, checker *contract.Checker) result {
	problems := e.record.problems
	for _, point := range e.curve {
		problems = append(problems, point.problems...)
	}
	if len(places) > 1 {
		problems = append(problems, problemAt(place{e.label, e.record.row.number, numberColumn},
			"%q is used by %s: give each item its own number", e.record.number, listPlaces(places)))
	}
	if len(problems) == 0 {
		for _, p := range checker.Check(e.item) {
			at, turned := e.locate(p.Field, curves)
			problems = append(problems, contract.Problem{Field: at.String(), Reason: p.Reason + turned})
		}
	}
	if len(problems) > 0 {
		return result{rejected: &contract.Rejected{ItemNumber: e.record.number, Description: e.item.GetDescription(), Problems: problems}}
	}
	return result{item: e.item}
}

// locate finds the cell that a field of an item was read from, and says what the column was turned into where it was.
func (e entry) locate(field, curves string) (at place, turned string) {
	label, from := e.label, e.record
	if rest, ok := strings.CutPrefix(field, "pump.curve["); ok {
		index, inPoint, _ := strings.Cut(rest, "]")
		if i, err := strconv.Atoi(index); err == nil && i < len(e.curve) {
			label, from, field = curves, e.curve[i], strings.TrimPrefix(inPoint, ".")
		}
	}
	if field == "pump.curve" {
		return place{sheet: curves, column: fmt.Sprintf("%s %q", numberColumn, e.record.number)}, ""
	}
	cell := from.cells[field]
	if cell.turn != nil {
		turned = fmt.Sprintf(" (as %s)", cell.name)
	}
	return place{label, from.row.number, cell.header}, turned
}

// sameNumber lists where each item number is used.
func sameNumber(items []entry) map[string][]place {
	uses := make(map[string][]place)
	for _, e := range items {
		if e.record.number != "" {
			uses[e.record.number] = append(uses[e.record.number], place{sheet: e.label, row: e.record.row.number})
		}
	}
	return uses
}

func listPlaces(places []place) string {
	text := make([]string, len(places))
	for i, p := range places {
		text[i] = p.String()
	}
	return strings.Join(text, " and ")
}
