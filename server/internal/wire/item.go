package wire

import (
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// UnitPrice is the price of an item as its kind is priced: a hose a metre, a liner a square metre, a medium a litre, all else a
// piece. Nil where there is none.
func UnitPrice(item *eq.Item) *float64 {
	switch kind := item.GetKind().(type) {
	case *eq.Item_Hose:
		return kind.Hose.PricePerM
	case *eq.Item_Liner:
		return kind.Liner.PricePerM2
	case *eq.Item_Medium:
		return kind.Medium.PricePerL
	default:
		return item.Price
	}
}

// BoreMM is the true inside diameter of a hose or a fitting, or of the outlet of a pump. Nil where it is not known.
func BoreMM(item *eq.Item) *float64 {
	switch kind := item.GetKind().(type) {
	case *eq.Item_Hose:
		return &kind.Hose.BoreMm
	case *eq.Item_Fitting:
		return &kind.Fitting.BoreMm
	case *eq.Item_Pump:
		return kind.Pump.OutletBoreMm
	default:
		return nil
	}
}

// MostFlowLPerH is the greatest flow that is known of an item. Nil where none is.
func MostFlowLPerH(item *eq.Item) *float64 {
	switch kind := item.GetKind().(type) {
	case *eq.Item_Pump:
		curve := kind.Pump.GetCurve()
		return curve[len(curve)-1].FlowLPerH
	case *eq.Item_Filter:
		return &kind.Filter.MaxFlowLPerH
	case *eq.Item_LampUnit:
		return &kind.LampUnit.MaxFlowLPerH
	default:
		return nil
	}
}

// StockOf says whether there is something on hand; nil is a count that is not known.
func StockOf(onHand *int32) pb.StockState {
	switch {
	case onHand == nil:
		return pb.StockState_STOCK_STATE_UNKNOWN
	case *onHand > 0:
		return pb.StockState_STOCK_STATE_IN_STOCK
	default:
		return pb.StockState_STOCK_STATE_OUT_OF_STOCK
	}
}

// Time is a moment on the wire; unset where it is the zero time.
func Time(t time.Time) *timestamppb.Timestamp {
	if t.IsZero() {
		return nil
	}
	return timestamppb.New(t)
}

// CatalogueAge says how old what is known is at a moment.
func CatalogueAge(read, now time.Time) *pb.CatalogueAge {
	return &pb.CatalogueAge{ReadTime: Time(read), AgeS: max(0, now.Sub(read).Seconds())}
}
