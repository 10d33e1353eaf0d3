package form

import (
	"net/url"
	"testing"

	"buf.build/go/protovalidate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"pgregory.net/rapid"

	pb "example.com/pondwright/proto/pondwright/v1"
)

func patio() Values {
	return Values{PondLength: "2.4", PondWidth: "1.5", PondDepth: "0.55", Fish: "goldfish", FishCount: "12", FallHeight: "0.45",
		FallWidth: "20", Sheet: "thin", Hose: "3", Energy: "0.28"}
}

func TestABriefFromMetres(t *testing.T) {
	b, faults := patio().Brief()
	require.Empty(t, faults)
	want := &pb.QuickBrief{
		Water: &pb.QuickBrief_Size{Size: &pb.QuickSize{LengthM: 2.4, WidthM: 1.5, DepthM: 0.55}}, Fish: pb.Species_SPECIES_GOLDFISH, FishCount: 12,
		Fall: &pb.QuickFall{HeightM: new(0.45), WidthCm: 20, Sheet: pb.Sheet_SHEET_THIN}, HoseLengthM: 3, EnergyPricePerKwh: new(0.28),
	}
	assert.True(t, proto.Equal(want, b), "%v", b)
	require.NoError(t, protovalidate.Validate(b))
}

// By the definitions: a foot is 0.3048 m, an inch 2.54 cm, a UK gallon 4.54609 L, a US gallon 231 cubic inches, which is
// 3.785411784 L.
func TestABriefFromFeetAndGallons(t *testing.T) {
	v := Values{Units: "uk", Litres: "1,000", FallHeight: `1' 6"`, FallWidth: "8", Hose: "10 ft"}
	b, faults := v.Brief()
	require.Empty(t, faults)
	assert.InDelta(t, 4546.09, b.GetVolumeL(), 1e-9)
	assert.InDelta(t, 0.4572, b.GetFall().GetHeightM(), 1e-12)
	assert.InDelta(t, 20.32, b.GetFall().GetWidthCm(), 1e-12)
	assert.InDelta(t, 3.048, b.GetHoseLengthM(), 1e-12)
	v[Units] = "us"
	b, faults = v.Brief()
	require.Empty(t, faults)
	assert.InDelta(t, 3785.411784, b.GetVolumeL(), 1e-9)
	assert.Equal(t, "1.5", v.Plain()[FallHeight])
	assert.Equal(t, "10", v.Plain()[Hose], "a unit that was typed is not needed in a code")
}

func TestEverythingWrongIsSaidAtOnceBesideItsField(t *testing.T) {
	for _, c := range []struct {
		name   string
		values Values
		want   map[string]string
	}{
		{"nothing", Values{}, map[string]string{Litres: "give the litres", Hose: "length of hose"}},
		{"both", Values{Litres: "2000", PondLength: "2", Hose: "3"}, map[string]string{Litres: "clear the other"}},
		{"part of a size", Values{PondLength: "2", Hose: "3"}, map[string]string{PondWidth: "width is needed", PondDepth: "depth is needed"}},
		{"comma", Values{Litres: "2000", Hose: "3,5"}, map[string]string{Hose: "write the fraction with a point"}},
		{"words", Values{Litres: "two thousand", Hose: "three"}, map[string]string{Litres: "litres are meant", Hose: "metres are meant"}},
		{"below 0", Values{Litres: "-5", Hose: "3"}, map[string]string{Litres: "not below 0"}},
		{"limits in metres", Values{PondLength: "2", PondWidth: "2", PondDepth: "12", Hose: "0"},
			map[string]string{PondDepth: "give from 0.05 to 10\u00a0m", Hose: "more than 0 and at most 500\u00a0m"}},
		{"limits in feet", Values{Units: "uk", PondLength: "20", PondWidth: "20", PondDepth: "40", Hose: "3"},
			map[string]string{PondDepth: "give from 0.165 to 32.8\u00a0ft"}},
		{"half a fish", Values{Litres: "2000", Hose: "3", Fish: "koi", FishCount: "2.5"}, map[string]string{FishCount: "whole number"}},
		{"no fish counted", Values{Litres: "2000", Hose: "3", Fish: "koi"}, map[string]string{FishCount: "how many"}},
		{"fish of no kind", Values{Litres: "2000", Hose: "3", FishCount: "4"}, map[string]string{Fish: "say which fish"}},
		{"half a fall", Values{Litres: "2000", Hose: "3", FallHeight: "1"}, map[string]string{FallWidth: "width of the sill"}},
		{"no such choice", Values{Litres: "2000", Hose: "3", Fish: "whale"}, map[string]string{Fish: "choose one"}},
	} {
		_, faults := c.values.Brief()
		assert.Len(t, faults, len(c.want), "%s: %v", c.name, faults)
		for field, says := range c.want {
			assert.Contains(t, faults.Of(field), says, c.name)
		}
	}
}

// What the form lets pass, the contract lets pass: its limits are the contract's own.
func TestWhatPassesTheFormPassesTheContract(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Values{Units: rapid.SampledFrom(Systems()).Draw(t, "units").Key}
		for _, f := range Fields() {
			switch {
			case rapid.Bool().Draw(t, "left out"):
			case len(f.Choices) > 0:
				v[f.Name] = rapid.SampledFrom(f.Choices).Draw(t, f.Name).Key
			default:
				v[f.Name] = rapid.StringMatching(`[0-9]{1,7}(\.[0-9]{1,3})?`).Draw(t, f.Name)
			}
		}
		if b, faults := v.Brief(); len(faults) == 0 {
			require.NoError(t, protovalidate.Validate(b))
		}
	})
}

// The limits that are said are allowed themselves, in every unit.
func TestSaidLimitsAreAllowed(t *testing.T) {
	for _, s := range Systems() {
		for _, f := range Fields() {
			if len(f.Choices) > 0 {
				continue
			}
			least, most, open := f.limits()
			assert.NoError(t, f.within(s.To(f.Of, inwards(s.From(f.Of, most), false)), s), f.Name)
			if !open {
				assert.NoError(t, f.within(s.To(f.Of, inwards(s.From(f.Of, least), true)), s), f.Name)
			}
		}
	}
}

// There and back in other units, what was typed comes back to four digits; what is no number is kept to be mended.
func TestUnitsThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		systems := Systems()
		from := rapid.SampledFrom(systems).Draw(t, "from")
		n := rapid.IntRange(1, 9999).Draw(t, "digits")
		v := Values{Units: from.Key, Litres: typed(float64(n), 4), PondDepth: typed(float64(n)/1000, 4), Energy: "0.28", Hose: "some"}
		back := v.In(rapid.SampledFrom(systems).Draw(t, "to")).In(from)
		for _, name := range []string{Litres, PondDepth} {
			was, err := number(v[name], from.Unit(FieldOf(name).Of))
			require.NoError(t, err)
			is, err := number(back[name], from.Unit(FieldOf(name).Of))
			require.NoError(t, err)
			assert.InEpsilon(t, was, is, 1e-4, "two roundings to five digits")
		}
		assert.Equal(t, "0.28", back[Energy])
		assert.Equal(t, "some", back[Hose])
	})
}

func TestAnAddressHoldsTheForm(t *testing.T) {
	v := patio()
	v[Units] = "us"
	q, err := url.ParseQuery(v.Query().Encode())
	require.NoError(t, err)
	assert.Equal(t, v, FromQuery(q))
	assert.Equal(t, 40, len([]rune(FromQuery(url.Values{Hose: {string(make([]byte, 5000))}})[Hose])))
	assert.True(t, Values{Energy: "0.28"}.Empty())
	assert.False(t, v.Empty())
}

func TestFieldsOfTheContractHaveTheirPlaceInTheForm(t *testing.T) {
	assert.Equal(t, PondDepth, Named("quick_brief.size.depth_m"))
	assert.Equal(t, FallHeight, Named("quick_brief.fall"))
	assert.Empty(t, Named("set.pump"))
	for _, f := range Fields() {
		assert.NotNil(t, f.descriptor(), f.Name)
	}
}

func FuzzNumber(f *testing.F) {
	for _, s := range []string{"1", "1,000", "5 ft 6", `5'6"`, "1,5", "-1", ".5", "1e9", "∞"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, s := range Systems() {
			for q := Plain; q <= Speed; q++ {
				if x, err := number(text, s.Unit(q)); err == nil && !(x >= 0) {
					t.Fatalf("%q is %v", text, x)
				}
			}
		}
	})
}
