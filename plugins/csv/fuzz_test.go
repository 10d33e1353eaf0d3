package csvcatalogue

import (
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
