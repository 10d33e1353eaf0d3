//go:build unix

package misbehave

import (
	"context"
	"fmt"
	"iter"
	"math"
	"strings"

	"google.golang.org/protobuf/encoding/protowire"
	"google.golang.org/protobuf/proto"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// shelf is a catalogue with a place to go wrong in.
type shelf struct {
	title, currency string
	items           iter.Seq[*equipmentv1.Item]
	describe, then  func()
}

func (s *shelf) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	if s.describe != nil {
		s.describe()
	}
	d := &cataloguev1.DescribeResponse{Title: "Test range (invented)", Revision: "1", Currency: "EUR"}
	if s.title != "" {
		d.Title = s.title[:min(len(s.title), 120)]
	}
	if s.currency != "" {
		d.Currency = s.currency
	}
	return d, nil
}

func (s *shelf) Items(context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		if s.items != nil {
			for item := range s.items {
				if !yield(item, nil) {
					return
				}
			}
		}
		if s.then != nil {
			s.then()
		}
	}
}

func pump(number string) *equipmentv1.Item {
	return &equipmentv1.Item{
		ItemNumber: number, Description: "pump", Price: proto.Float64(10),
		Kind: &equipmentv1.Item_Pump{Pump: &equipmentv1.Pump{
			PowerW: proto.Float64(60),
			Curve:  []*equipmentv1.CurvePoint{point(0, 3), point(5000, 1)},
		}},
	}
}

func point(flow, head float64) *equipmentv1.CurvePoint {
	return &equipmentv1.CurvePoint{FlowLPerH: &flow, HeadM: &head}
}

func pumps(n int) iter.Seq[*equipmentv1.Item] {
	return func(yield func(*equipmentv1.Item) bool) {
		for i := range n {
			if !yield(pump(fmt.Sprintf("P-%05d", n-i))) {
				return
			}
		}
	}
}

// longCurves are pumps with curves of 12 points.
func longCurves(n int) iter.Seq[*equipmentv1.Item] {
	return func(yield func(*equipmentv1.Item) bool) {
		for item := range pumps(n) {
			curve := make([]*equipmentv1.CurvePoint, 12)
			for i := range curve {
				curve[i] = point(500*float64(i), 6-0.5*float64(i))
				curve[i].PowerW = proto.Float64(120)
			}
			item.GetPump().Curve = curve
			if !yield(item) {
				return
			}
		}
	}
}

func one(item *equipmentv1.Item) iter.Seq[*equipmentv1.Item] {
	return func(yield func(*equipmentv1.Item) bool) { yield(item) }
}

func endless(item *equipmentv1.Item) iter.Seq[*equipmentv1.Item] {
	return func(yield func(*equipmentv1.Item) bool) {
		for yield(item) {
		}
	}
}

// badItems are one good pump among eight that are not.
func badItems(yield func(*equipmentv1.Item) bool) {
	spoilt := func(number string, spoil func(*equipmentv1.Item)) *equipmentv1.Item {
		item := pump(number)
		spoil(item)
		return item
	}
	items := []*equipmentv1.Item{
		spoilt("NAN", func(i *equipmentv1.Item) { i.GetPump().Curve[1].HeadM = proto.Float64(math.NaN()) }),
		spoilt("INF", func(i *equipmentv1.Item) { i.Price = proto.Float64(math.Inf(1)) }),
		spoilt("NEGATIVE", func(i *equipmentv1.Item) { i.GetPump().Curve[1].FlowLPerH = proto.Float64(-1) }),
		spoilt("HUGE", func(i *equipmentv1.Item) { i.Description = strings.Repeat("long ", 10_000) }),
		pump("TWICE"), pump("GOOD"), pump("TWICE"),
		{},
		pump("LINE\nBREAK"),
	}
	for _, item := range items {
		if !yield(item) {
			return
		}
	}
}

// rawItem is an item whose number is not UTF-8, which protobuf refuses to write: it is hidden in the unknown fields, whose
// bytes are sent as they are.
func rawItem() *equipmentv1.Item {
	item := &equipmentv1.Item{}
	raw := protowire.AppendTag(nil, 1, protowire.BytesType)
	item.ProtoReflect().SetUnknown(protowire.AppendBytes(raw, []byte("P-\xff")))
	return item
}
