//go:build unix

package misbehave

import (
	"context"
	"iter"
	"strings"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Refuser is a catalogue that cannot give most of its items.
type Refuser struct{}

// Describe implements contract.Catalogue.
func (Refuser) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	return (&shelf{}).Describe(context.Background())
}

// Items implements contract.Catalogue.
func (Refuser) Items(context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		_ = yield(pump("GOOD"), nil) &&
			yield(nil, &contract.Rejected{ItemNumber: "DEAR", Description: "pump", Problems: []contract.Problem{
				{Field: "pumps.csv row 2, column price", Reason: "is empty: fill it in"}, {Field: "pumps.csv row 2, column power_w", Reason: "is empty: fill it in"},
			}}) &&
			yield(pump("TWICE"), nil) &&
			yield(nil, &contract.Rejected{ItemNumber: "TWICE", Problems: []contract.Problem{{Reason: "no curve"}}}) &&
			yield(nil, &contract.Rejected{}) &&
			yield(nil, &contract.Rejected{ItemNumber: "LONG\n" + strings.Repeat("x", 100), Problems: make([]contract.Problem, 1000)})
	}
}
