package leaf

import (
	"fmt"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// BesidePage writes what changes from one job to another.
func BesidePage(names [2]string, changes *pb.ComparePlansResponse) ([]byte, error) {
	c := proto.CloneOf(changes)
	cleanWords(c.ProtoReflect())
	for i := range names {
		if names[i] = page.Clean(names[i]); names[i] == "" {
			names[i] = "a pond without a name"
		}
	}
	t := columns("What is not the same", "Figure", ">"+names[0], ">"+names[1], ">change", "What hangs on it")
	for _, d := range c.GetDifferences() {
		change := "–"
		if d.ChangePercent != nil {
			change = fmt.Sprintf("%+.3g", d.GetChangePercent()) + figure.Space + "%"
		}
		t.row(capital(d.GetName()), side(d.Before, d.GetWordBefore(), d.GetUnit()), side(d.After, d.GetWordAfter(), d.GetUnit()), change, sentence(d.GetWhy()))
	}
	t.Note = fmt.Sprintf("Figures that are the same: %d.", c.GetSameCount())
	parts := []part{{ID: "figures", Title: "Figures side by side", Blocks: t.block("")}}
	if len(t.Rows) == 0 {
		parts[0].Blocks = text(fmt.Sprintf("All %d figures are the same.", c.GetSameCount()))
	}
	for _, group := range []struct {
		id, title string
		isNew     bool
	}{{"new", "New with the second", true}, {"gone", "Gone with the first", false}} {
		var list []*pb.Finding
		for _, f := range c.GetFindingDifferences() {
			if f.GetIsNew() == group.isNew {
				list = append(list, f.GetFinding())
			}
		}
		if len(list) > 0 {
			parts = append(parts, part{ID: group.id, Title: group.title, Blocks: []block{{Findings: findings(pb.Severity_SEVERITY_UNSPECIFIED, list)}}})
		}
	}
	return render(names[0]+" and "+names[1], "Two jobs side by side", parts)
}

func side(number *float64, word, unit string) string {
	switch {
	case number != nil:
		return quantity(&pb.Quantity{Value: *number, Unit: unit})
	case word != "":
		return word
	}
	return "–"
}
