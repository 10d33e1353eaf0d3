package kit

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/unit"
)

func TestWhyFirst(t *testing.T) {
	cheapToRun := Candidate{Headroom: unit.Percent(5), Cost: Cost{Price: 1032.6, EnergyPerYear: 466.05, LampsPerYear: 32, Total: 3522.85}}
	cheapToBuy := Candidate{Headroom: unit.Percent(9), Cost: Cost{Price: 900, EnergyPerYear: 520, LampsPerYear: 32, Total: 3660}}
	f := &Finder{q: Question{Tariff: 0.28, Years: 5}, r: Range{Currency: "GBP"}}
	assert.Equal(t, []string{
		"Over 5 years the first costs GBP 3,522.85 in all, the second GBP 3,660.00.",
		"The first costs GBP 132.60 more to buy, but GBP 53.95 less a year to run.",
		"But the second has more headroom, 9 % against 5 %: take it where the figures of pond or fish are unsure.",
	}, f.WhyFirst(cheapToRun, cheapToBuy))
	f.q.Tariff = 0
	assert.Equal(t, []string{
		"The first costs GBP 132.60 less to buy.", "The first has more headroom, 9 % against 5 %.",
	}, f.WhyFirst(cheapToBuy, cheapToRun))
}
