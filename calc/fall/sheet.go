// Package fall is about water that runs over a sill, alone or in a cascade, and about the sheet that falls from it.
package fall

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Sheet is how a fall is to look.
type Sheet int

// From quiet to loud.
const (
	Thin  Sheet = iota + 1 // a thin, quiet sheet
	Full                   // the usual full sheet
	Heavy                  // heavy and loud
)

// String is the sheet in the words of the trade.
func (s Sheet) String() string {
	switch s {
	case Thin:
		return "thin sheet"
	case Full:
		return "full sheet"
	case Heavy:
		return "heavy sheet"
	default:
		return "unknown"
	}
}

// Practice is the flow over each centimetre of sill that builders take for such a sheet. Rules of the trade disagree by a
// factor of three, mostly over where the depth of water is read; these bands are the middle of them.
//
// Source: common practice, no source.
func (s Sheet) Practice() (least, most unit.FlowPerWidth, src source.Source) {
	band := map[Sheet][2]float64{Thin: {60, 120}, Full: {120, 200}, Heavy: {200, 350}}[s]
	return unit.LitresPerHourPerCentimetre(band[0]), unit.LitresPerHourPerCentimetre(band[1]), source.Practice
}

// SheetAt is what a flow over each centimetre of sill looks like, by the same bands: 0 below the first, where water clings
// to the edge and splits, and Heavy above the last.
//
// Source: common practice, no source.
func SheetAt(q unit.FlowPerWidth) Sheet {
	look := Sheet(0)
	for _, s := range []Sheet{Thin, Full, Heavy} {
		if least, _, _ := s.Practice(); q >= least {
			look = s
		}
	}
	return look
}
