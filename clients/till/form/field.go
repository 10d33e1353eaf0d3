package form

import (
	"fmt"
	"math"
	"strings"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A Field is one box to type in, or one thing to choose.
type Field struct {
	Name  string // in addresses: it stays as it is, for printed codes hold it
	Label string
	Hint  string
	Of    Quantity
	Whole bool
	// Path of the field in the contract's QuickBrief, whose limits hold here.
	Path string
	// Choices of a field that is chosen from. Empty for one that is typed in.
	Choices []Choice
}

// A Choice is one of a few; its key stands in addresses, and its place in printed codes: only ever add at the end.
type Choice struct{ Key, Label string }

// The names of the fields.
const (
	Litres     = "volume"
	PondLength = "length"
	PondWidth  = "width"
	PondDepth  = "depth"
	Sides      = "sides"
	Fish       = "fish"
	FishCount  = "count"
	FishLength = "size"
	FallHeight = "fall"
	FallWidth  = "sill"
	Sheet      = "sheet"
	Hose       = "hose"
	Energy     = "energy"
	Budget     = "budget"
	Stock      = "stock"
	Units      = "units"
)

// Fields in the order they are asked. Printed codes hold them in this order: only ever add at the end.
func Fields() []Field {
	return []Field{
		{Name: Litres, Label: "Water in the pond", Hint: "if it is known", Of: Volume, Path: "volume_l"},
		{Name: PondLength, Label: "Length", Of: Length, Path: "size.length_m"},
		{Name: PondWidth, Label: "Width", Of: Length, Path: "size.width_m"},
		{Name: PondDepth, Label: "Depth", Of: Length, Path: "size.depth_m"},
		{Name: Sides, Label: "Sides of the pond", Path: "size.sides", Choices: []Choice{
			{"", "not said: reckoned as upright"}, {"upright", "straight down"}, {"steep", "steep, with a narrow shelf"},
			{"shelves", "free form with shelves"}, {"saucer", "flat, like a saucer"},
		}},
		{Name: Fish, Label: "Fish", Path: "fish", Choices: []Choice{
			{"", "none"}, {"goldfish", "goldfish"}, {"koi", "koi"}, {"carp", "common carp"}, {"other", "other pond fish"},
		}},
		{Name: FishCount, Label: "How many", Of: Plain, Whole: true, Path: "fish_count"},
		{Name: FishLength, Label: "Length of a fish today", Hint: "tail included", Of: Short, Path: "fish_length_cm"},
		{Name: FallHeight, Label: "Height of the fall", Hint: "from water to sill", Of: Length, Path: "fall.height_m"},
		{Name: FallWidth, Label: "Width of the sill", Hint: "the water runs over", Of: Short, Path: "fall.width_cm"},
		{Name: Sheet, Label: "Water over the sill", Path: "fall.sheet", Choices: []Choice{
			{"", "a full sheet"}, {"thin", "a thin, quiet sheet"}, {"heavy", "heavy and loud"},
		}},
		{Name: Hose, Label: "Length of hose", Hint: "pump to fall, ups and downs included", Of: Length, Path: "hose_length_m"},
		{Name: Energy, Label: "Price of electricity", Hint: "a kWh; it is on the bill", Of: Plain, Path: "energy_price_per_kwh"},
		{Name: Budget, Label: "Most to spend", Hint: "on the kit", Of: Plain, Path: "budget"},
		{Name: Stock, Label: "Suggest", Path: "availability", Choices: []Choice{
			{"", "everything in the catalogue"}, {"shelf", "only what is counted in stock"}, {"notout", "all but what is out of stock"},
		}},
	}
}

// FieldOf is the one with the name.
func FieldOf(name string) Field {
	for _, f := range Fields() {
		if f.Name == name {
			return f
		}
	}
	return Field{Name: name}
}

// limits are those of the contract, in its unit. open says that the least itself is not allowed.
func (f Field) limits() (least, most float64, open bool) {
	rules, _ := proto.GetExtension(f.descriptor().Options(), validate.E_Field).(*validate.FieldRules)
	if r := rules.GetInt32(); r != nil {
		return float64(r.GetGte()), float64(r.GetLte()), false
	}
	r := rules.GetDouble()
	if r.HasGt() {
		return r.GetGt(), r.GetLte(), true
	}
	return r.GetGte(), r.GetLte(), false
}

func (f Field) descriptor() protoreflect.FieldDescriptor {
	message := (&pb.QuickBrief{}).ProtoReflect().Descriptor()
	var field protoreflect.FieldDescriptor
	for name := range strings.SplitSeq(f.Path, ".") {
		field = message.Fields().ByName(protoreflect.Name(name))
		message = field.Message()
	}
	return field
}

// within holds a number, in the contract's unit, to the limits of the contract and says them in the customer's unit, rounded
// inwards so that what is said is allowed.
func (f Field) within(x float64, s System) error {
	least, most, open := f.limits()
	if x >= least && x <= most && !(open && x == least) {
		return nil
	}
	unit := s.Unit(f.Of)
	high := with(inwards(s.From(f.Of, most), false), unit)
	if open {
		return fmt.Errorf("give more than %s and at most %s", figure.Number(s.From(f.Of, least)), high)
	}
	return fmt.Errorf("give from %s to %s", figure.Digits(inwards(s.From(f.Of, least), true), 6), high)
}

func with(x float64, unit Unit) string {
	if unit.Symbol == "" {
		return figure.Digits(x, 8)
	}
	return figure.Digits(x, 6) + figure.Space + strings.ReplaceAll(unit.Symbol, " ", figure.Space)
}

// inwards rounds to three digits, up or down.
func inwards(x float64, up bool) float64 {
	if x == 0 {
		return 0
	}
	step := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-2)
	if up {
		return math.Ceil(x/step-1e-9) * step
	}
	return math.Floor(x/step+1e-9) * step
}
