package csvcatalogue

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/contract"
)

// Whatever is in the files, reading them neither panics nor lets an item through that the engine would refuse, and every
// complaint has a place and a reason.
func FuzzFiles(f *testing.F) {
	files := goodFiles(f)
	f.Add(string(files["catalogue.csv"]), string(files["pumps.csv"]), string(files["pump_curves.csv"]), string(files["filters.csv"]))
	f.Add("title;currency\nA;EUR\n", "item_number;description;price\nP;x;1,5\n", "item_number;flow_l_per_h;head_m;power_w\nP;0;1;5\nP;9;1;5\n", "")
	f.Add("title,currency\n\"", "\ufeffitem_number,description\n,\n", "item_number\tflow_l_per_h", "\xff\xfe")
	checker, err := contract.NewChecker()
	require.NoError(f, err)
	f.Fuzz(func(t *testing.T, about, pumps, curves, filters string) {
		b, problems := folderBook(map[string][]byte{
			"catalogue.csv": []byte(about), "pumps.csv": []byte(pumps), "pump_curves.csv": []byte(curves), "filters.csv": []byte(filters),
		})
		c, more := build(b, checker)
		if problems = append(problems, more...); len(problems) > 0 {
			placed(t, problems)
			return
		}
		if p := checker.CheckDescription(c.description); len(p) > 0 {
			t.Fatal(p)
		}
		for _, r := range c.results {
			if r.rejected != nil {
				placed(t, r.rejected.Problems)
			} else if p := checker.Check(r.item); len(p) > 0 {
				t.Fatal(p)
			}
		}
	})
}

// Whatever stands at the head of a column and below it, a cell is read as a number that is one, or refused. What grows beyond all
// numbers when it is turned into another unit is left to the checks of the item, which name the column.
func FuzzHeading(f *testing.F) {
	for _, t := range newTables().all() {
		for _, c := range t.columns {
			for _, n := range c.names() {
				f.Add(n.name, "1.5", false)
			}
		}
	}
	f.Add("Flow (US gal/min)", "1e308", false)
	f.Add("Water temperature (°F)", "1,5", true)
	all := newTables().all()
	f.Fuzz(func(t *testing.T, heading, cell string, decimalComma bool) {
		name := normalise(heading)
		if normalise(name) != name {
			t.Fatalf("%q reads as %q and that as %q", heading, name, normalise(name))
		}
		for _, table := range all {
			c, turn, ok := table.column(name)
			if !ok {
				continue
			}
			v, err := bound{column: c, turn: turn}.value(cell, decimalComma)
			if x, isNumber := v.Interface().(float64); err == nil && isNumber && turn == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
				t.Fatalf("%q under %s is read as %g", cell, name, x)
			}
		}
	})
}

func placed(t *testing.T, problems []contract.Problem) {
	if len(problems) == 0 {
		t.Fatal("refused without a reason")
	}
	for _, p := range problems {
		if p.Field == "" || p.Reason == "" {
			t.Fatalf("no place or no reason: %+v", p)
		}
	}
}
