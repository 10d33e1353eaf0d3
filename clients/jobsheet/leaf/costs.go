package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/figure"
)

// costs are what it comes to, of what has a price.
func (l *leaf) costs() (part, error) {
	p := part{ID: "costs", Title: "What it costs", Apart: true}
	c := l.plan.GetCosts()
	if c == nil || len(c.GetLines()) == 0 {
		return p, nil
	}
	for _, yearly := range []bool{false, true} {
		caption, total := "To build, "+c.GetCurrency(), c.GetBuildTotal()
		if yearly {
			caption, total = "Every year, "+c.GetCurrency(), c.GetYearlyTotal()
		}
		t := columns(caption, "What", "Group", ">quantity", "Unit", ">price of one", ">cost")
		for _, line := range c.GetLines() {
			if line.GetYearly() != yearly {
				continue
			}
			each, cost := "none", "not priced"
			if line.UnitPrice != nil {
				each = figure.Fixed(line.GetUnitPrice(), 2)
			}
			if line.Cost != nil {
				cost = figure.Fixed(line.GetCost(), 2)
			}
			t.row(capital(line.GetName()), line.GetGroup(), figure.Number(line.GetQuantity()), line.GetUnit(), each, cost)
		}
		t.Foot = []string{"together, of what has a price", "", "", "", "", figure.Fixed(total, 2)}
		p.Blocks = append(p.Blocks, t.block("")...)
	}
	if names := c.GetWithoutPrice(); len(names) > 0 {
		p.Blocks = append(p.Blocks, block{Heading: fmt.Sprintf("Without a price, and in no total: %d", len(names)), List: names})
	}
	p.Blocks = append(p.Blocks, l.grave(c.GetFindings())...)
	return p, nil
}
