package contract_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"pgregory.net/rapid"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

func newChecker(t testing.TB) *contract.Checker {
	t.Helper()
	c, err := contract.NewChecker()
	require.NoError(t, err)
	return c
}

// good is one item of each kind with every field set. The items are invented.
func good() map[string]*equipmentv1.Item {
	items := map[string]*equipmentv1.Item{
		"pump": {Kind: &equipmentv1.Item_Pump{Pump: &equipmentv1.Pump{
			Curve: []*equipmentv1.CurvePoint{
				{FlowLPerH: proto.Float64(0), HeadM: proto.Float64(3.2), PowerW: proto.Float64(52)},
				{FlowLPerH: proto.Float64(3000), HeadM: proto.Float64(2.2), PowerW: proto.Float64(60)},
				{FlowLPerH: proto.Float64(6000), HeadM: proto.Float64(0.2), PowerW: proto.Float64(66)},
			},
			PowerW: proto.Float64(60), SolidsMm: proto.Float64(6), OutletBoreMm: proto.Float64(25),
			LabelFlowLPerH: proto.Float64(12_000), LabelHeadM: proto.Float64(5), // far from the curve, and not refused for it
			CableLengthM: proto.Float64(10),
		}}},
		"filter": {Kind: &equipmentv1.Item_Filter{Filter: &equipmentv1.Filter{
			Body: equipmentv1.FilterBody_FILTER_BODY_PRESSURE, Medium: equipmentv1.FilterMedium_FILTER_MEDIUM_FOAM,
			MediumL: 12, SpecificSurfaceM2PerM3: 400, MaxFlowLPerH: 6000,
			CleanLoss: &equipmentv1.LossPoint{FlowLPerH: 4000, HeadM: proto.Float64(0.6)}, DueLoss: &equipmentv1.LossPoint{FlowLPerH: 4000, HeadM: proto.Float64(1.4)},
			InletAboveOutletM: proto.Float64(0.3), FlushL: proto.Float64(20), LabelPondL: proto.Float64(10_000),
		}}},
		"lamp_unit": {Kind: &equipmentv1.Item_LampUnit{LampUnit: &equipmentv1.LampUnit{
			Lamp: equipmentv1.LampKind_LAMP_KIND_LOW_PRESSURE, LampCount: 2, PowerW: 40, Output_254NmW: proto.Float64(5.5),
			ArcLengthMm: 210, SleeveDiameterMm: 28, ChamberDiameterMm: 76, ChamberLengthMm: 330, LifeH: 9000,
			Loss: &equipmentv1.LossPoint{FlowLPerH: 5000, HeadM: proto.Float64(0.15)}, MaxFlowLPerH: 8000, LampPrice: proto.Float64(24.5),
			CableLengthM: proto.Float64(5),
		}}},
		"hose": {Kind: &equipmentv1.Item_Hose{Hose: &equipmentv1.Hose{
			BoreMm: 25.4, Wall: equipmentv1.HoseWall_HOSE_WALL_SMOOTH, TailBoreMm: proto.Float64(22), PricePerM: proto.Float64(2.9),
		}}},
		"liner": {Kind: &equipmentv1.Item_Liner{Liner: &equipmentv1.Liner{
			Material: equipmentv1.LinerMaterial_LINER_MATERIAL_EPDM, ThicknessMm: 1, MassKgPerM2: 1.25, RollWidthM: 12.2, PricePerM2: proto.Float64(8.4),
		}}},
		"fitting": {Kind: &equipmentv1.Item_Fitting{Fitting: &equipmentv1.Fitting{
			Kind: equipmentv1.FittingKind_FITTING_KIND_TEE, BoreMm: 25, LossCoefficient: proto.Float64(0.4), BranchLossCoefficient: proto.Float64(1.1),
		}}},
		"medium": {Kind: &equipmentv1.Item_Medium{Medium: &equipmentv1.Medium{
			Medium: equipmentv1.FilterMedium_FILTER_MEDIUM_MOVING_CARRIERS, SpecificSurfaceM2PerM3: 500, PricePerL: proto.Float64(1.6),
			PackL: proto.Float64(25), MassKgPerL: proto.Float64(0.15),
		}}},
		"fish_species": {Kind: &equipmentv1.Item_FishSpecies{FishSpecies: &equipmentv1.FishSpecies{
			CommonName: "goldfish", SoldLengthCm: proto.Float64(10), GrownLengthCm: proto.Float64(25), LengthMassCoefficient: proto.Float64(0.01479),
			LengthMassExponent: proto.Float64(3.03), GrowthRatePerYear: proto.Float64(0.2), MinWaterTemperatureC: proto.Float64(4), MaxWaterTemperatureC: proto.Float64(28),
		}}},
	}
	for kind, item := range items {
		item.ItemNumber, item.Description, item.Price, item.InStock = "X-"+kind, kind, proto.Float64(10), proto.Int32(0)
	}
	return items
}

func point(flow, head float64) *equipmentv1.CurvePoint {
	return &equipmentv1.CurvePoint{FlowLPerH: &flow, HeadM: &head}
}

func TestGoodItemsPass(t *testing.T) {
	c, items := newChecker(t), good()
	kinds := (&equipmentv1.Item{}).ProtoReflect().Descriptor().Oneofs().ByName("kind").Fields()
	for i := range kinds.Len() {
		name := string(kinds.Get(i).Name())
		require.Contains(t, items, name, "a kind of item without an example here")
		assert.Empty(t, c.Check(items[name]), name)
		assert.NotZero(t, contract.KindOf(items[name]), name)
	}
}

func TestWhatIsRefused(t *testing.T) {
	c := newChecker(t)
	for _, refused := range []struct {
		kind, field, reason string
		spoil               func(*equipmentv1.Item)
	}{
		{"pump", "item_number", "at least 1", func(i *equipmentv1.Item) { i.ItemNumber = "" }},
		{"pump", "description", "pattern", func(i *equipmentv1.Item) { i.Description = "two\nlines" }},
		{"pump", "price", "greater than or equal to 0", func(i *equipmentv1.Item) { i.Price = proto.Float64(-1) }},
		{"pump", "kind", "newer than this engine", func(i *equipmentv1.Item) { i.Kind = nil }},
		{"pump", "pump.curve", "at least 2", func(i *equipmentv1.Item) { i.GetPump().Curve = i.GetPump().Curve[:1] }},
		{"pump", "pump.curve[2].flow_l_per_h", "flow 3000 L/h does not lie above the 3000 L/h before it", func(i *equipmentv1.Item) { i.GetPump().Curve[2].FlowLPerH = proto.Float64(3000) }},
		{"pump", "pump.curve[2].head_m", "head rises from 2.2 to 2.3 m", func(i *equipmentv1.Item) { i.GetPump().Curve[2].HeadM = proto.Float64(2.3) }},
		{"pump", "pump.power_w", "no power given", withoutPower},
		{"pump", "pump.curve", "at 2 of 3 points", func(i *equipmentv1.Item) { i.GetPump().Curve[1].PowerW = nil }},
		{"pump", "pump.curve[1].power_w", "puts into the water", func(i *equipmentv1.Item) { i.GetPump().Curve[1].PowerW = proto.Float64(17) }},
		{"filter", "filter", "head lost is never taken as nothing", func(i *equipmentv1.Item) { i.GetFilter().DueLoss = nil }},
		{"filter", "filter.body", "must not be in list", func(i *equipmentv1.Item) { i.GetFilter().Body = 0 }},
		{"filter", "filter.medium", "defined enum", func(i *equipmentv1.Item) { i.GetFilter().Medium = 99 }},
		{"lamp_unit", "lamp_unit.output_254_nm_w", "more than the 40 W", func(i *equipmentv1.Item) { i.GetLampUnit().Output_254NmW = proto.Float64(20.1) }},
		{"lamp_unit", "lamp_unit.loss", "required", func(i *equipmentv1.Item) { i.GetLampUnit().Loss = nil }},
		{"hose", "hose", "a tail fits inside", func(i *equipmentv1.Item) { i.GetHose().TailBoreMm = proto.Float64(30) }},
		{"liner", "liner.thickness_mm", "greater than 0", func(i *equipmentv1.Item) { i.GetLiner().ThicknessMm = 0 }},
		{"pump", "in_stock", "greater than or equal to 0", func(i *equipmentv1.Item) { i.InStock = proto.Int32(-1) }},
		{"fitting", "fitting", "branch_loss_coefficient is for tees", func(i *equipmentv1.Item) { i.GetFitting().Kind = equipmentv1.FittingKind_FITTING_KIND_BEND_90 }},
		{"fitting", "fitting", "wide_bore_mm is for hose tails and reducers", func(i *equipmentv1.Item) { i.GetFitting().WideBoreMm = proto.Float64(32) }},
		{"fitting", "fitting", "state wide_bore_mm", func(i *equipmentv1.Item) { hoseTail(i).WideBoreMm = nil }},
		{"fitting", "fitting", "no less than bore_mm", func(i *equipmentv1.Item) { hoseTail(i).WideBoreMm = proto.Float64(24.9) }},
		{"fitting", "fitting.kind", "defined enum", func(i *equipmentv1.Item) { i.GetFitting().Kind = 99 }},
		{"medium", "medium.price_per_l", "required", func(i *equipmentv1.Item) { i.GetMedium().PricePerL = nil }},
		{"fish_species", "fish_species.common_name", "at least 1", func(i *equipmentv1.Item) { i.GetFishSpecies().CommonName = "" }},
		{"fish_species", "fish_species", "give both or neither", func(i *equipmentv1.Item) { i.GetFishSpecies().LengthMassExponent = nil }},
		{"fish_species", "fish_species", "must not be less than sold_length_cm", func(i *equipmentv1.Item) { i.GetFishSpecies().GrownLengthCm = proto.Float64(9) }},
		{"fish_species", "fish_species", "must be greater than min_water_temperature_c", func(i *equipmentv1.Item) { i.GetFishSpecies().MaxWaterTemperatureC = proto.Float64(4) }},
	} {
		item := good()[refused.kind]
		refused.spoil(item)
		problems := c.Check(item)
		at := slices.IndexFunc(problems, func(p contract.Problem) bool { return p.Field == refused.field })
		if assert.NotEqual(t, -1, at, "%s is not among %v", refused.field, problems) {
			assert.Contains(t, problems[at].Reason, refused.reason)
		}
	}
}

// hoseTail makes the fitting a good hose tail.
func hoseTail(i *equipmentv1.Item) *equipmentv1.Fitting {
	f := i.GetFitting()
	f.Kind, f.BranchLossCoefficient, f.WideBoreMm = equipmentv1.FittingKind_FITTING_KIND_HOSE_TAIL, nil, proto.Float64(32)
	return f
}

func withoutPower(i *equipmentv1.Item) {
	i.GetPump().PowerW = nil
	for _, p := range i.GetPump().Curve {
		p.PowerW = nil
	}
}

// Every number of every kind is spoilt in turn, so that a field that comes later is tested too.
func TestNoNumberMayBeNotANumber(t *testing.T) {
	c := newChecker(t)
	spoilt := 0
	for _, item := range good() {
		eachDouble(item.ProtoReflect(), "", func(m protoreflect.Message, f protoreflect.FieldDescriptor, path string) {
			was := m.Get(f)
			for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
				m.Set(f, protoreflect.ValueOfFloat64(bad))
				problems := c.Check(item)
				named := slices.ContainsFunc(problems, func(p contract.Problem) bool { return p.Field == path })
				assert.True(t, named, "%s = %g: %v", path, bad, problems)
				spoilt++
			}
			m.Set(f, was)
		})
		assert.Empty(t, c.Check(item))
	}
	assert.Greater(t, spoilt, 100)
}

func eachDouble(m protoreflect.Message, path string, do func(protoreflect.Message, protoreflect.FieldDescriptor, string)) {
	m.Range(func(f protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		at := strings.TrimPrefix(path+"."+string(f.Name()), ".")
		switch {
		case f.IsList():
			for i := range v.List().Len() {
				eachDouble(v.List().Get(i).Message(), fmt.Sprintf("%s[%d]", at, i), do)
			}
		case f.Message() != nil:
			eachDouble(v.Message(), at, do)
		case f.Kind() == protoreflect.DoubleKind:
			do(m, f, at)
		}
		return true
	})
}

// The check walks fields and lists. A map in the contract would need a case of its own.
func TestContractHasNoMaps(t *testing.T) {
	eachMessage((&equipmentv1.Item{}).ProtoReflect().Descriptor(), func(d protoreflect.MessageDescriptor) {
		for i := range d.Fields().Len() {
			assert.False(t, d.Fields().Get(i).IsMap(), d.FullName())
		}
	})
}

func eachMessage(d protoreflect.MessageDescriptor, do func(protoreflect.MessageDescriptor)) {
	do(d)
	for i := range d.Fields().Len() {
		if inner := d.Fields().Get(i).Message(); inner != nil {
			eachMessage(inner, do)
		}
	}
}

// Pump handbooks give the power that goes into the water as P = Q H ρ / 367, in kW for Q in m³/h, H in m and ρ in kg/dm³
// (common form, from memory). 367 stands for 3600 / g, and is good to half a unit of its last digit.
func TestPowerIsHeldAgainstTheHandbookForm(t *testing.T) {
	const q, h, density = 36.0, 10.0, 0.9982
	watts := q * h * density / 367 * 1000
	margin := 0.5 / 367
	item := good()["pump"]
	item.GetPump().Curve = []*equipmentv1.CurvePoint{point(0, h), point(q*1000, h)}
	c := newChecker(t)
	item.GetPump().PowerW = proto.Float64(watts * (1 + margin))
	assert.Empty(t, c.Check(item))
	item.GetPump().PowerW = proto.Float64(watts * (1 - margin))
	problems := c.Check(item)
	require.Len(t, problems, 1)
	assert.Equal(t, "pump.power_w", problems[0].Field)
}

// Any curve in order of a pump that can be passes, and the same curve with two points exchanged does not.
func TestCurveInOrderPasses(t *testing.T) {
	c := newChecker(t)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 30).Draw(t, "points")
		curve := make([]*equipmentv1.CurvePoint, n)
		flow, head, hydraulic := 0.0, 20.0, 0.0
		for i := range curve {
			curve[i] = point(flow, head)
			hydraulic = max(hydraulic, flow*head*998.2*9.80665/3.6e6)
			flow += rapid.Float64Range(1000, 3000).Draw(t, "further")
			head -= rapid.Float64Range(0, 0.6).Draw(t, "lower")
		}
		item := good()["pump"]
		item.GetPump().Curve = curve
		item.GetPump().PowerW = proto.Float64(3 * hydraulic)
		if p := c.Check(item); len(p) > 0 {
			t.Fatal(p)
		}
		i := rapid.IntRange(1, n-1).Draw(t, "exchanged")
		curve[i], curve[i-1] = curve[i-1], curve[i]
		if len(c.Check(item)) == 0 {
			t.Fatal("points out of order pass")
		}
	})
}

// What the batch check of curves is sure of keeps an item out too: it is the same check.
func TestACurveThatTheBatchCheckStopsAtIsKeptOut(t *testing.T) {
	c := newChecker(t)
	item := good()["pump"]
	item.GetPump().PowerW = proto.Float64(45)
	item.GetPump().LabelFlowLPerH, item.GetPump().LabelHeadM = nil, nil
	curve := func(scale float64) (made []*equipmentv1.CurvePoint) {
		for _, p := range [][2]float64{{0, 2.2}, {600, 2.08}, {1200, 1.78}, {1800, 1.32}, {2400, 0.73}, {3000, 0}} { // invented
			made = append(made, point(p[0]*scale, p[1]))
		}
		return made
	}
	item.GetPump().Curve = curve(1)
	assert.Empty(t, c.Check(item))
	item.GetPump().Curve = curve(1.0 / 1000) // cubic metres an hour, in a column of litres
	problems := c.Check(item)
	require.Len(t, problems, 1)
	assert.Equal(t, "pump.curve", problems[0].Field)
	assert.Contains(t, problems[0].Reason, "cubic metres an hour")
}

func TestDescriptionIsChecked(t *testing.T) {
	c := newChecker(t)
	d := &cataloguev1.DescribeResponse{Title: "Test range (invented)", Revision: "1", Currency: "GBP"}
	assert.Empty(t, c.CheckDescription(d))
	d.Currency, d.Revision = "£", "two words"
	problems := c.CheckDescription(d)
	require.Len(t, problems, 2)
	assert.Contains(t, contract.Join(problems), "currency")
	assert.Contains(t, contract.Join(problems), "revision")
}

func BenchmarkCheckPump(b *testing.B) {
	c, item := newChecker(b), good()["pump"]
	for len(item.GetPump().Curve) < 12 {
		last := item.GetPump().Curve[len(item.GetPump().Curve)-1]
		item.GetPump().Curve = append(item.GetPump().Curve,
			&equipmentv1.CurvePoint{FlowLPerH: proto.Float64(last.GetFlowLPerH() + 100), HeadM: last.HeadM, PowerW: last.PowerW})
	}
	require.Empty(b, c.Check(item))
	b.ReportAllocs()
	for b.Loop() {
		c.Check(item)
	}
}

// A head that rises a little from no flow is how some sound pumps are; the engine draws such a curve, and so it is taken.
func TestDroopNearNoFlowIsTaken(t *testing.T) {
	item := good()["pump"]
	item.GetPump().Curve = append([]*equipmentv1.CurvePoint{
		{FlowLPerH: proto.Float64(0), HeadM: proto.Float64(3.1), PowerW: proto.Float64(50)},
		{FlowLPerH: proto.Float64(1000), HeadM: proto.Float64(3.2), PowerW: proto.Float64(52)},
	}, item.GetPump().GetCurve()[1:]...)
	assert.Empty(t, newChecker(t).Check(item))
}
