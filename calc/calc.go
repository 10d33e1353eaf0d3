// Package calc is the arithmetic of ponds: pure engineering that knows no network, no file, no clock and no protobuf.
//
// Each folder is a room with one subject. A newcomer best begins with unit, working and pipe.
package calc

import (
	"slices"

	"example.com/pondwright/calc/balance"
	"example.com/pondwright/calc/calendar"
	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/calibrate"
	"example.com/pondwright/calc/circuit/sizing"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/circulation"
	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/defect"
	"example.com/pondwright/calc/dig"
	"example.com/pondwright/calc/drawdown"
	"example.com/pondwright/calc/electric"
	"example.com/pondwright/calc/fall"
	"example.com/pondwright/calc/fill"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/greenwater"
	"example.com/pondwright/calc/handover"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/level"
	"example.com/pondwright/calc/lining"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/oxygen"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/season"
	"example.com/pondwright/calc/solids"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/stone"
	"example.com/pondwright/calc/stream"
	"example.com/pondwright/calc/survey"
	"example.com/pondwright/calc/treat"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/visit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/winter"
	"example.com/pondwright/calc/work"
	"example.com/pondwright/calc/working"
)

// MethodSet names the formulas, constants and rules in force. It changes when an answer can change though the question
// and the catalogue have not.
const MethodSet = "2026.11.2"

// Formulas lists every formula of every room.
func Formulas() []working.Entry {
	return slices.Concat(
		balance.Formulas(), calibrate.Formulas(), circuit.Formulas(), tree.Formulas(), circulation.Formulas(), climate.Formulas(), defect.Formulas(), dig.Formulas(), drawdown.Formulas(), fall.Formulas(), fill.Formulas(), filter.Formulas(), greenwater.Formulas(),
		kit.Formulas(), level.Formulas(), lining.Formulas(), outline.Formulas(), oxygen.Formulas(), pipe.Formulas(), pump.Formulas(),
		ripening.Formulas(), season.Formulas(), sizing.Formulas(), solids.Formulas(), stock.Formulas(), stone.Formulas(), stream.Formulas(), survey.Formulas(), uv.Formulas(), water.Formulas(),
		winter.Formulas(), calendar.Formulas(), electric.Formulas(), handover.Formulas(), treat.Formulas(), visit.Formulas(), work.Formulas(),
	)
}
