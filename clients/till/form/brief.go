package form

import (
	"fmt"
	"math"
	"slices"
	"strings"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// A Fault says what to change in a field.
type Fault struct{ Field, Message string }

// Faults are all of them at once, in the order of the fields.
type Faults []Fault

// Of is what is wrong with one field; empty where nothing is.
func (f Faults) Of(field string) string {
	if i := slices.IndexFunc(f, func(one Fault) bool { return one.Field == field }); i >= 0 {
		return f[i].Message
	}
	return ""
}

// Brief makes the engine's question of the values, or says everything that keeps them from being one.
func (v Values) Brief() (*pb.QuickBrief, Faults) {
	r := reader{values: v, system: v.System()}
	b := &pb.QuickBrief{}
	r.water(b)
	r.fish(b)
	r.fall(b)
	r.need(Hose, "give the length of hose: a few metres of it change the flow")
	b.HoseLengthM = r.number(Hose)
	if v[Energy] != "" {
		b.EnergyPricePerKwh = new(r.number(Energy))
	}
	if v[Budget] != "" {
		b.Budget = new(r.number(Budget))
	}
	b.Availability = chosen(&r, Stock, pb.Availability_AVAILABILITY_UNSPECIFIED, pb.Availability_AVAILABILITY_IN_STOCK, pb.Availability_AVAILABILITY_NOT_KNOWN_OUT)
	order := names()
	slices.SortStableFunc(r.faults, func(a, b Fault) int { return slices.Index(order, a.Field) - slices.Index(order, b.Field) })
	return b, r.faults
}

type reader struct {
	values Values
	system System
	faults Faults
}

func (r *reader) fault(field, message string) {
	if r.faults.Of(field) == "" {
		r.faults = append(r.faults, Fault{field, message})
	}
}

func (r *reader) has(name string) bool { return r.values[name] != "" }

func (r *reader) need(name, message string) {
	if !r.has(name) {
		r.fault(name, message)
	}
}

// number of a field in the contract's unit, 0 where it is left out or wrong.
func (r *reader) number(name string) float64 {
	f := FieldOf(name)
	if !r.has(name) {
		return 0
	}
	x, err := number(r.values[name], r.system.Unit(f.Of))
	if err != nil {
		r.fault(name, err.Error())
		return 0
	}
	if f.Whole && x != math.Trunc(x) {
		r.fault(name, "give a whole number")
		return 0
	}
	x = r.system.To(f.Of, x)
	if err := f.within(x, r.system); err != nil {
		r.fault(name, err.Error())
		return 0
	}
	return x
}

// chosen is the one of the values that stands where the choice does.
func chosen[T any](r *reader, name string, values ...T) T {
	for i, c := range FieldOf(name).Choices {
		if c.Key == r.values[name] {
			return values[i]
		}
	}
	r.fault(name, "choose one of those listed")
	return values[0]
}

func (r *reader) water(b *pb.QuickBrief) {
	sides := chosen(r, Sides, pb.PondSides_POND_SIDES_UNSPECIFIED, pb.PondSides_POND_SIDES_UPRIGHT, pb.PondSides_POND_SIDES_STEEP,
		pb.PondSides_POND_SIDES_SHELVES, pb.PondSides_POND_SIDES_SAUCER)
	measured := r.has(PondLength) || r.has(PondWidth) || r.has(PondDepth)
	unit := r.system.Unit(Volume).Words
	switch {
	case r.has(Litres) && measured:
		r.fault(Litres, fmt.Sprintf("give the %s or the length, width and depth, and clear the other: they may not agree", unit))
	case r.has(Litres):
		b.Water = &pb.QuickBrief_VolumeL{VolumeL: r.number(Litres)}
	case measured:
		for _, name := range []string{PondLength, PondWidth, PondDepth} {
			r.need(name, strings.ToLower(FieldOf(name).Label)+" is needed too, for the water to be reckoned")
		}
		b.Water = &pb.QuickBrief_Size{Size: &pb.QuickSize{
			LengthM: r.number(PondLength), WidthM: r.number(PondWidth), DepthM: r.number(PondDepth), Sides: sides,
		}}
	default:
		r.fault(Litres, fmt.Sprintf("give the %s, or length, width and depth below", unit))
	}
}

func (r *reader) fish(b *pb.QuickBrief) {
	b.Fish = chosen(r, Fish, pb.Species_SPECIES_UNSPECIFIED, pb.Species_SPECIES_GOLDFISH, pb.Species_SPECIES_KOI,
		pb.Species_SPECIES_CARP, pb.Species_SPECIES_OTHER)
	if b.GetFish() == pb.Species_SPECIES_UNSPECIFIED {
		if r.has(FishCount) && r.number(FishCount) != 0 || r.has(FishLength) {
			r.fault(Fish, "say which fish, or clear their number and length")
		}
		return
	}
	r.need(FishCount, "say how many fish there are to be")
	b.FishCount = int32(r.number(FishCount))
	if r.has(FishCount) && b.GetFishCount() == 0 {
		r.fault(FishCount, "give one fish or more, or choose none")
	}
	if r.has(FishLength) {
		b.FishLengthCm = new(r.number(FishLength))
	}
}

func (r *reader) fall(b *pb.QuickBrief) {
	sheet := chosen(r, Sheet, pb.Sheet_SHEET_UNSPECIFIED, pb.Sheet_SHEET_THIN, pb.Sheet_SHEET_HEAVY)
	if !r.has(FallHeight) && !r.has(FallWidth) {
		return
	}
	r.need(FallHeight, "give the height of the fall too, or clear the width for a pond without one")
	r.need(FallWidth, "give the width of the sill too, or clear the height for a pond without a fall")
	b.Fall = &pb.QuickFall{HeightM: new(r.number(FallHeight)), WidthCm: r.number(FallWidth), Sheet: sheet}
}

// Named is the field of the form that a field of the contract belongs to, and empty where none does.
func Named(path string) string {
	path = strings.TrimPrefix(path, "quick_brief.")
	for _, f := range Fields() {
		if f.Path == path {
			return f.Name
		}
	}
	for _, f := range Fields() { // a group named as a whole
		if strings.HasPrefix(f.Path, path+".") {
			return f.Name
		}
	}
	return ""
}
