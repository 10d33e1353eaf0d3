package engine_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// geometric is what every answer about the ground holds.
type geometric interface {
	GetFindings() []*pb.Finding
	GetWorkings() []*pb.WorkingStep
	GetProvenance() *pb.Provenance
}

func foundIn(found []*pb.Finding) (codes []string) {
	for _, f := range found {
		codes = append(codes, f.GetCode())
	}
	return codes
}

// holdsTogether runs every step of an answer again from what the answer says of it, to the last bit, and looks for a source of
// each finding.
func holdsTogether(t *testing.T, resp geometric) {
	t.Helper()
	known := map[string]working.Entry{}
	for _, f := range calc.Formulas() {
		known[f.Describe().ID] = f
	}
	values := func(vs []*pb.WorkingValue) (made []working.Value) {
		for _, v := range vs {
			made = append(made, working.Value{Symbol: v.GetSymbol(), Number: v.GetValue(), Unit: v.GetUnit()})
		}
		return made
	}
	require.NotEmpty(t, resp.GetWorkings())
	for _, s := range resp.GetWorkings() {
		require.Contains(t, known, s.GetFormulaId())
		out, err := known[s.GetFormulaId()].ReplayValues(values(s.GetInputs()))
		require.NoError(t, err, s.GetFormulaId())
		assert.Equal(t, out, values(s.GetResults()), s.GetFormulaId())
		assert.NotEmpty(t, s.GetSource().GetKey(), s.GetFormulaId())
	}
	for _, f := range resp.GetFindings() {
		assert.NotEmpty(t, f.GetSentence(), f.GetCode())
		assert.NotEmpty(t, f.GetSource().GetKey(), f.GetCode())
	}
	assert.Len(t, resp.GetProvenance().GetRequestDigest(), 64)
}

func rectangle(length, width, depth float64) *pb.Bay {
	return &pb.Bay{Outline: &pb.Bay_Rectangle{Rectangle: &pb.Rectangle{LengthM: length, WidthM: width}}, DepthM: depth}
}

func pondOf(bays ...*pb.Bay) *pb.Pond { return &pb.Pond{Bays: bays} }

// One pond of 4 x 3 m, upright and 1 m deep, measured in every way there is.
func TestEveryOutlineLeadsToTheSameVolume(t *testing.T) {
	_, conn := start(t)
	square := []*pb.Point{point(0, 0), point(4, 0), point(4, 3), point(0, 3)}
	bays := map[string]*pb.Bay{
		"rectangle": rectangle(4, 3, 1),
		"polygon":   {DepthM: 1, Outline: &pb.Bay_Polygon{Polygon: &pb.Polygon{Points: square}}},
		"two pegs": {DepthM: 1, Outline: &pb.Bay_TwoPegs{TwoPegs: &pb.TwoPegs{BaseM: 4, Shots: []*pb.TwoPegs_Shot{
			{FromBM: 4}, {FromAM: 4}, {FromAM: 5, FromBM: 3}, {FromAM: 3, FromBM: 5},
		}}}},
		"string line": {DepthM: 1, Outline: &pb.Bay_StringLine{StringLine: &pb.StringLine{Offsets: []*pb.StringLine_Offset{
			{LeftM: 1, RightM: 2}, {AlongM: 4, LeftM: 1, RightM: 2},
		}}}},
		"running ties": {DepthM: 1, Outline: &pb.Bay_RunningTies{RunningTies: &pb.RunningTies{BaseM: 4, Ties: []*pb.RunningTies_Tie{
			{PointB: 1, FromAM: 5, FromBM: 3}, {PointB: 2, FromAM: 3, FromBM: 4},
		}}}},
		"notes": {DepthM: 1, Outline: &pb.Bay_Notes{Notes: &pb.SurveyNotes{
			Text: "two pegs, 400 cm\n0, 4 m\n4 m, 0\n5 m, 3000 mm\n3 m, 16 ft 4.850394 in # 5 m\n",
		}}},
		"contours": {DepthM: 1, Outline: rectangle(4, 3, 0).GetOutline(), Contours: []*pb.Contour{
			{DepthM: 0.5, Extent: &pb.Contour_AreaM2{AreaM2: 12}}, {DepthM: 1, Extent: &pb.Contour_Polygon{Polygon: &pb.Polygon{Points: square}}},
		}},
		"soundings": {DepthM: 1, Outline: rectangle(4, 3, 0).GetOutline(), Soundings: &pb.Soundings{EdgeDepthM: 1, Taken: []*pb.Sounding{
			{At: point(2, 1), DepthM: 1}, {At: point(1, 2), DepthM: 1},
		}}},
	}
	for name, bay := range bays {
		resp, err := pb.NewVolumeServiceClient(conn).CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{Pond: pondOf(bay), Workings: true})
		require.NoError(t, err, name)
		assert.InDelta(t, 12000, resp.GetMeasures().GetVolumeL(), 1e-3, name)
		assert.InDelta(t, 12000, resp.GetMeasures().GetNetVolumeL(), 1e-3, name)
		assert.InDelta(t, 12+14*1, resp.GetMeasures().GetBays()[0].GetWettedM2(), 1e-6, name)
		holdsTogether(t, resp)
	}
	// A circle, and a smooth bank through 12 of its points, which encloses 0.2 % less.
	for name, bay := range map[string]*pb.Bay{
		"circle": {DepthM: 1, Outline: &pb.Bay_Circle{Circle: &pb.Circle{DiameterM: 4}}},
		"smooth": {DepthM: 1, Outline: &pb.Bay_Smooth{Smooth: &pb.Smooth{Points: onCircle(12, 2)}}},
	} {
		resp, err := pb.NewVolumeServiceClient(conn).CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{Pond: pondOf(bay)})
		require.NoError(t, err, name)
		assert.InEpsilon(t, 4000*math.Pi, resp.GetMeasures().GetVolumeL(), 0.003, name)
	}
}

func onCircle(n int, radius float64) (points []*pb.Point) {
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		points = append(points, point(radius*cos, radius*sin))
	}
	return points
}

// A survey that cannot be right says which measurement, as the caller gave it.
func TestAWrongSurveyNamesItsMeasurement(t *testing.T) {
	_, conn := start(t)
	client := pb.NewVolumeServiceClient(conn)
	shots := func(last *pb.TwoPegs_Shot) *pb.TwoPegs {
		return &pb.TwoPegs{BaseM: 4, Shots: []*pb.TwoPegs_Shot{{FromAM: 3, FromBM: 5}, last, {FromAM: 5, FromBM: 3}, {FromAM: 5, FromBM: 5.1}}}
	}
	_, err := client.CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{Pond: pondOf(
		&pb.Bay{DepthM: 1, Outline: &pb.Bay_TwoPegs{TwoPegs: shots(&pb.TwoPegs_Shot{FromAM: 1, FromBM: 1})}},
		&pb.Bay{DepthM: 1, Outline: &pb.Bay_TwoPegs{TwoPegs: shots(&pb.TwoPegs_Shot{FromAM: 5.1, FromBM: 5})}},
		&pb.Bay{DepthM: 1, Outline: &pb.Bay_StringLine{StringLine: &pb.StringLine{Offsets: []*pb.StringLine_Offset{{LeftM: 1}, {AlongM: -1, LeftM: 1}}}}},
		&pb.Bay{DepthM: 1, Outline: &pb.Bay_Notes{Notes: &pb.SurveyNotes{Text: "points\n0, 0\n4, 0"}}},
		&pb.Bay{DepthM: 1, Outline: rectangle(4, 3, 0).GetOutline(), Contours: []*pb.Contour{{DepthM: 1, Extent: &pb.Contour_AreaM2{AreaM2: 13}}}},
		&pb.Bay{DepthM: 1, Outline: rectangle(4, 3, 0).GetOutline(), Soundings: &pb.Soundings{Taken: []*pb.Sounding{{At: point(9, 9), DepthM: 1}}}},
	)})
	assert.Equal(t, []string{
		"pond.bays[0].two_pegs.shots[1]", "pond.bays[1].two_pegs.shots[2]", "pond.bays[2].string_line.offsets[1].along_m",
		"pond.bays[3].notes.text", "pond.bays[4].contours[0].area_m2", "pond.bays[5].soundings.taken[0]",
	}, fields(t, err))

	_, err = client.CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{Pond: pondOf(&pb.Bay{
		DepthM: 1.2, Outline: rectangle(4, 3, 0).GetOutline(), Soundings: &pb.Soundings{Taken: []*pb.Sounding{{At: point(1, 1), DepthM: 1}}},
	})})
	assert.Equal(t, []string{"pond.bays[0].depth_m"}, fields(t, err), "two measurements that do not agree")
}

// Offsets of a parabola, a metre apart, with a check tape that does not fit; and a circle.
func TestSurveyOutline(t *testing.T) {
	_, conn := start(t)
	client := pb.NewVolumeServiceClient(conn)
	var offsets []*pb.StringLine_Offset
	for i, y := range []float64{0, 1, 4, 9, 16} { // a parabola: Simpson's rule is exact, 4³/3
		offsets = append(offsets, &pb.StringLine_Offset{AlongM: float64(i), LeftM: y})
	}
	resp, err := client.SurveyOutline(t.Context(), &pb.SurveyOutlineRequest{
		Outline: &pb.SurveyOutlineRequest_StringLine{StringLine: &pb.StringLine{
			Offsets: offsets, Checks: []*pb.CheckTape{{FromPoint: 0, ToPoint: 4, DistanceM: 4.3}},
		}}, Workings: true,
	})
	require.NoError(t, err)
	assert.InDelta(t, 22, resp.GetAreaM2(), 1e-12, "trapezia by hand")
	assert.InDelta(t, 64./3, resp.GetAreaBySimpsonM2(), 1e-12)
	assert.Len(t, resp.GetPoints(), 9)
	assert.Equal(t, []string{"SURVEY_DOES_NOT_PROVE"}, foundIn(resp.GetFindings()))
	holdsTogether(t, resp)

	resp, err = client.SurveyOutline(t.Context(), &pb.SurveyOutlineRequest{
		Outline: &pb.SurveyOutlineRequest_Circle{Circle: &pb.Circle{DiameterM: 2}},
	})
	require.NoError(t, err)
	assert.InDelta(t, math.Pi, resp.GetAreaM2(), 1e-12)
	assert.InDelta(t, 2*math.Pi, resp.GetPerimeterM(), 1e-12)
	assert.InDelta(t, 2, resp.GetWidthM(), 1e-12)
	assert.Len(t, resp.GetPoints(), 240)
}

// By hand: bays of 4 x 3 x 1.2 m and 2 x 2 x 0.8 m with a saddle at 0.3 m.
func TestCalculateLevels(t *testing.T) {
	_, conn := start(t)
	client := pb.NewVolumeServiceClient(conn)
	pond := pondOf(rectangle(4, 3, 1.2), rectangle(2, 2, 0.8))
	pond.Bays[0].Name = "deep"
	pond.SaddleDepthM = new(0.3)
	resp, err := client.CalculateLevels(t.Context(), &pb.CalculateLevelsRequest{
		Pond: pond, FallenM: []float64{0, 0.9}, LostL: []float64{1600, 1e6}, RefugeM: []float64{0.6}, FreeboardM: new(0.1), Workings: true,
	})
	require.NoError(t, err)
	assert.InDelta(t, 17600, resp.GetVolumeL(), 1e-9)
	assert.InDelta(t, 17.6/16, resp.GetMeanDepthM(), 1e-12)
	assert.InDelta(t, 16, resp.GetLevels()[0].GetAreaM2(), 1e-12)
	assert.InDelta(t, 12, resp.GetLevels()[1].GetAreaM2(), 1e-12)
	assert.InDelta(t, 3600, resp.GetLevels()[1].GetVolumeL(), 1e-9)
	assert.InDelta(t, 100*3.6/17.6, resp.GetLevels()[1].GetSharePercent(), 1e-9)
	assert.InDelta(t, 0.1, resp.GetDrops()[0].GetFallenM(), 1e-12)
	assert.False(t, resp.GetDrops()[0].GetEmpties())
	assert.True(t, resp.GetDrops()[1].GetEmpties())
	assert.InDelta(t, 12*600+4*200, resp.GetRefuges()[0].GetVolumeL(), 1e-9)
	assert.InDelta(t, 1600, resp.GetSpareL(), 1e-9)
	assert.InDelta(t, 800, resp.GetTopUp().GetSoonL(), 1e-9)
	assert.InDelta(t, 1200, resp.GetTopUp().GetLateL(), 1e-9)
	require.Len(t, resp.GetDraws(), 2)
	assert.Equal(t, "deep", resp.GetDraws()[0].GetBay())
	assert.InDelta(t, 14400+1200, resp.GetDraws()[0].GetDrawnL(), 1e-9)
	assert.InDelta(t, 2000, resp.GetDraws()[0].GetLeftL(), 1e-9)
	assert.Contains(t, foundIn(resp.GetFindings()), "TOP_UP_ALLOWANCE")
	holdsTogether(t, resp)

	resp, err = client.CalculateLevels(t.Context(), &pb.CalculateLevelsRequest{Pond: pondOf(rectangle(4, 3, 1))})
	require.NoError(t, err)
	require.Len(t, resp.GetLevels(), 21)
	assert.InDelta(t, 0.05, resp.GetLevels()[1].GetFallenM(), 1e-12)
	assert.Empty(t, resp.GetDraws())

	pond.SaddleDepthM = new(1.0)
	_, err = client.CalculateLevels(t.Context(), &pb.CalculateLevelsRequest{Pond: pond})
	assert.Equal(t, []string{"pond.saddle_depth_m"}, fields(t, err))
}

// The single boulder and the rounded gravel of the reference table: 350 and 195 L.
func TestStoneInTheWaterIsTakenOff(t *testing.T) {
	_, conn := start(t)
	client := pb.NewVolumeServiceClient(conn)
	pond := pondOf(rectangle(4, 3, 1))
	pond.Displacing = []*pb.Displacing{
		{Name: "boulder", Size: &pb.Displacing_MassKg{MassKg: 927.5}, DensityKgPerM3: new(2650.0)},
		{Name: "gravel", Size: &pb.Displacing_BulkL{BulkL: 300}, VoidPercent: new(35.0)},
	}
	resp, err := client.CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{Pond: pond, Workings: true})
	require.NoError(t, err)
	assert.InDelta(t, 12000, resp.GetMeasures().GetVolumeL(), 1e-9)
	assert.InDelta(t, 545, resp.GetMeasures().GetDisplacedL(), 1e-9)
	assert.InDelta(t, 11455, resp.GetMeasures().GetNetVolumeL(), 1e-9)
	assert.Equal(t, []string{"WATER_DISPLACED"}, foundIn(resp.GetFindings()))
	holdsTogether(t, resp)

	pond.Displacing = []*pb.Displacing{{Size: &pb.Displacing_BulkL{BulkL: 30000}}}
	_, err = client.CalculateVolume(t.Context(), &pb.CalculateVolumeRequest{Pond: pond})
	assert.Equal(t, []string{"pond.displacing"}, fields(t, err))
}

// By hand: 12 m³ by the meter, 10.8 m³ by 30 L/min for six hours, and 3 kg of salt that raise 10 m³ by 0.3 g/L, against 12 m³.
func TestEstimateVolume(t *testing.T) {
	_, conn := start(t)
	client := pb.NewVolumeServiceClient(conn)
	req := &pb.EstimateVolumeRequest{
		Meter: &pb.MeterReading{BeforeM3: 100, AfterM3: 112}, FillTime: &pb.FillTime{FlowLPerMin: 30, TimeMin: 360},
		Salt: &pb.SaltTest{MassKg: 3, BeforeGPerL: 0.2, AfterGPerL: 0.5, ReadingUncertaintyGPerL: new(0.01)}, Drawn: pondOf(rectangle(4, 3, 1)), Workings: true,
	}
	resp, err := client.EstimateVolume(t.Context(), req)
	require.NoError(t, err)
	require.Len(t, resp.GetEstimates(), 3)
	for i, want := range []float64{12000, 10800, 10000} {
		assert.InDelta(t, want, resp.GetEstimates()[i].GetVolumeL().GetExpected(), 1e-6)
		assert.InDelta(t, 100*(12000/want-1), resp.GetEstimates()[i].GetDrawnOverPercent(), 1e-6)
	}
	assert.InDelta(t, 12600, resp.GetEstimates()[0].GetVolumeL().GetHigh(), 1e-6)
	assert.InDelta(t, 10800, resp.GetDrawnL().GetLow(), 1e-6)
	codes := foundIn(resp.GetFindings())
	assert.Subset(t, codes, []string{"ASSUMED", "SALT_IN_A_POND", "VOLUMES_AGREE", "DRAWN_VOLUME_WRONG"})
	holdsTogether(t, resp)

	req.Meter.AfterM3, req.Salt.AfterGPerL = 90, 0.1
	_, err = client.EstimateVolume(t.Context(), req)
	assert.Equal(t, []string{"meter.after_m3", "salt.after_g_per_l"}, fields(t, err))
	_, err = client.EstimateVolume(t.Context(), &pb.EstimateVolumeRequest{})
	assert.Equal(t, []string{""}, fields(t, err), "a rule of the whole message: some way must be given")
}

// The reference's P02: 6 x 4 m, 1.2 m deep, 0.5 in for each metre down, 0.3 m over the rim; and P10 as a box.
func TestSizeLining(t *testing.T) {
	_, conn := start(t)
	client := pb.NewVolumeServiceClient(conn)
	bay := rectangle(6, 4, 1.2)
	bay.Batter = 0.5
	resp, err := client.SizeLining(t.Context(), &pb.SizeLiningRequest{
		Bay: bay, Edge: &pb.LiningEdge{FreeboardM: new(0.0)}, Material: pb.LiningMaterial_LINING_MATERIAL_RUBBER,
		Roll: &pb.SheetRoll{WidthM: 7, LapM: 0.1}, Underlay: &pb.UnderlaySheet{Roll: &pb.SheetRoll{WidthM: 2}, MassGPerM2: new(300.0)}, Workings: true,
	})
	require.NoError(t, err)
	assert.InDelta(t, 8.083281573, resp.GetDeveloped().GetLengthM(), 5e-10)
	assert.InDelta(t, 49.17287784, resp.GetDeveloped().GetAreaM2(), 3e-8)
	assert.InDelta(t, 63, resp.GetRule().GetAreaM2(), 1e-9)
	assert.True(t, resp.GetCut().GetOnePiece())
	assert.InDelta(t, 49.17287784*1.2, resp.GetMassKg(), 1e-6, "1 mm of 1200 kg/m³")
	assert.EqualValues(t, 3, resp.GetPeople())
	assert.InDelta(t, 8.083281573-0.6, resp.GetUnderlay().GetSheet().GetLengthM(), 5e-10)
	assert.EqualValues(t, 4, resp.GetUnderlay().GetCut().GetStrips(), "4 of 5.48 m are less than 3 of 7.48 m")
	assert.True(t, resp.GetUnderlay().GetCut().GetCrosswise())
	assert.InDelta(t, (8.083281573-0.6)*(6.083281573-0.6)*0.3, resp.GetUnderlay().GetMassKg(), 1e-6)
	assert.Subset(t, foundIn(resp.GetFindings()), []string{"RULE_IS_GENEROUS", "ASSUMED"})
	holdsTogether(t, resp)

	resp, err = client.SizeLining(t.Context(), &pb.SizeLiningRequest{
		Bay: rectangle(6, 3, 1.7), Edge: &pb.LiningEdge{FreeboardM: new(0.1), OverlapM: new(0.15)}, Boxed: true, MassKgPerM2: new(1.3),
	})
	require.NoError(t, err)
	assert.InDelta(t, 18+18*1.95, resp.GetBox().GetMaterialM2(), 1e-9)
	assert.InDelta(t, 1.3*(18+18*1.95), resp.GetBox().GetMassKg(), 1e-9)

	_, err = client.SizeLining(t.Context(), &pb.SizeLiningRequest{Bay: bay, Boxed: true})
	assert.Equal(t, []string{"bay.batter"}, fields(t, err))
}

// By hand: 4 x 3 x 1 m under 0.1 m of rim, on 50 mm of bed; 14.5 m³ in all.
func TestPlanDig(t *testing.T) {
	_, conn := start(t)
	client := pb.NewVolumeServiceClient(conn)
	req := &pb.PlanDigRequest{
		Pond: pondOf(rectangle(4, 3, 1)), FreeboardM: new(0.1), BedM: 0.05, TurfM: 0.03, TopsoilM: 0.15, Ground: pb.GroundKind_GROUND_KIND_CLAY,
		Vehicles: []*pb.SpoilVehicle{{Name: "skip", CapacityM3: 6, PayloadKg: 8000}}, Mound: &pb.SpoilMound{SharePercent: new(50.0)}, Workings: true,
	}
	resp, err := client.PlanDig(t.Context(), req)
	require.NoError(t, err)
	assert.InDelta(t, 14.5, resp.GetTotalM3(), 1e-12)
	assert.InDelta(t, 1.15, resp.GetDepthM(), 1e-12)
	assert.InDelta(t, 0.36, resp.GetTurf().GetBankM3(), 1e-12)
	assert.InDelta(t, 1.8, resp.GetTopsoil().GetBankM3(), 1e-12)
	subsoil := 14.5 - 0.36 - 1.8
	assert.InDelta(t, subsoil, resp.GetSubsoil().GetBankM3(), 1e-12)
	assert.InDelta(t, 1.43*subsoil, resp.GetSubsoil().GetLooseM3(), 1e-12)
	assert.InDelta(t, 1.43*subsoil/2, resp.GetCartedLooseM3(), 1e-12)
	assert.InDelta(t, 1900*subsoil/2, resp.GetCartedMassKg(), 1e-9)
	assert.EqualValues(t, 2, resp.GetLoads()[0].GetLoads(), "11.7 t: weight and volume both ask for two")
	m := resp.GetMound()
	assert.InDelta(t, m.GetLooseM3(), math.Pi*m.GetDiameterM()*m.GetDiameterM()*m.GetHeightM()/12, 1e-9, "a cone")
	assert.Subset(t, foundIn(resp.GetFindings()), []string{"EXCAVATION_SIDES", "MOUND_ABOVE_WATER", "TOPSOIL_APART", "SOIL_SWELLS", "SOIL_WEIGHS"})
	holdsTogether(t, resp)

	req.TurfM, req.TopsoilM, req.FreeboardM = 0.3, 1, new(0.0)
	_, err = client.PlanDig(t.Context(), req)
	assert.Equal(t, []string{"topsoil_m"}, fields(t, err))
}

// The edge boulders of the reference table, 15.7 m of them, 2.99556 t; and 33 flags by hand.
func TestPlanStone(t *testing.T) {
	_, conn := start(t)
	client := pb.NewVolumeServiceClient(conn)
	req := &pb.PlanStoneRequest{
		Round:  &pb.PlanStoneRequest_EdgeLengthM{EdgeLengthM: 20},
		Edging: &pb.StoneEdging{LengthM: 0.6, WidthM: 0.4, HeightM: 0.05, JointM: 0.01, BedM: 0.04, DensityKgPerM3: new(2500.0)},
		Beds:   []*pb.StoneBed{{Name: "boulders 300 to 400 mm", LengthM: 15.7, WidthM: 0.4, HeightM: 0.3}},
		Fall: &pb.FallStone{
			HeightM: 0.6, Steps: 2, SillWidthCm: 60, DepthM: 0.5, ThicknessM: 0.08, WallM: 0.3, DensityKgPerM3: new(2600.0),
		}, Workings: true,
	}
	resp, err := client.PlanStone(t.Context(), req)
	require.NoError(t, err)
	assert.EqualValues(t, 33, resp.GetEdging().GetStones())
	assert.InDelta(t, 320+33*0.01*0.4*0.05*1000, resp.GetEdging().GetMortarL(), 1e-9)
	assert.InDelta(t, 2.99556, resp.GetBeds()[0].GetMassT(), 1e-9)
	assert.InDelta(t, 1130.4, resp.GetBeds()[0].GetDisplacesL(), 1e-9)
	assert.InDelta(t, 0.9*0.5*0.08*2600, resp.GetFall().GetSpillMassKg(), 1e-9)
	assert.InDelta(t, resp.GetEdging().GetMassT()+2.99556+2*0.0936+1.9*0.3*0.6*0.6*2.6, resp.GetTotalMassT(), 1e-9)
	assert.Subset(t, foundIn(resp.GetFindings()), []string{"LIME_FROM_MORTAR", "FALL_NEEDS_FOOTING", "STONE_TOO_HEAVY_FOR_ONE", "ASSUMED"})
	holdsTogether(t, resp)

	req.Round = &pb.PlanStoneRequest_Pond{Pond: pondOf(rectangle(6, 4, 1))}
	resp, err = client.PlanStone(t.Context(), req)
	require.NoError(t, err)
	assert.InDelta(t, 20, resp.GetEdging().GetEdgeM(), 1e-12)
	req.Round = nil
	_, err = client.PlanStone(t.Context(), req)
	require.Error(t, err, "an edging needs an edge")
}

// By hand: 8 x 3 m, with the pump beside the return in summer.
func TestCheckCirculation(t *testing.T) {
	_, conn := start(t)
	client := pb.NewVolumeServiceClient(conn)
	at := func(x, y, depth float64) *pb.PlaceInWater { return &pb.PlaceInWater{At: point(x, y), DepthM: depth} }
	req := &pb.CheckCirculationRequest{Bay: rectangle(8, 3, 1.2), Positions: []*pb.PumpPosition{
		{Season: pb.PumpSeason_PUMP_SEASON_SUMMER, Intake: at(1, 1.5, 0.3), Returns: []*pb.PlaceInWater{at(0, 1.5, 0)}},
		{Season: pb.PumpSeason_PUMP_SEASON_WINTER, Intake: at(7, 1.5, 1.1), Returns: []*pb.PlaceInWater{at(0, 1.5, 0)}},
	}, Workings: true}
	resp, err := client.CheckCirculation(t.Context(), req)
	require.NoError(t, err)
	assert.InDelta(t, math.Hypot(8, 3), resp.GetLengthM(), 1e-12)
	assert.InDelta(t, 1, resp.GetCourses()[0].GetWayM(), 1e-12)
	assert.NotEmpty(t, resp.GetCourses()[0].GetDeadEnds())
	assert.InDelta(t, 7, resp.GetCourses()[1].GetWayM(), 1e-12)
	assert.InDelta(t, 2400, resp.GetCourses()[1].GetStillL(), 1e-6)
	assert.Equal(t, "winter", resp.GetCourses()[1].GetName())
	assert.Equal(t, []string{"INTAKE_SHALLOW", "SHORT_CIRCUIT", "DEAD_END", "DEEP_WATER_STIRRED", "WINTER_WAY_LONG"}, foundIn(resp.GetFindings()))
	holdsTogether(t, resp)

	req.Positions[0].Intake = at(30, 1, 0.3)
	_, err = client.CheckCirculation(t.Context(), req)
	assert.Equal(t, []string{"positions[0].intake"}, fields(t, err))
}

// A kit is chosen for a pond that was taped, by the water that is left in it.
func TestAKitForATapedPond(t *testing.T) {
	_, conn := start(t)
	b := brief()
	b.Pond = pondOf(&pb.Bay{DepthM: 0.8, Outline: &pb.Bay_Notes{Notes: &pb.SurveyNotes{Text: "running ties, 3 m\n0-1, 12 ft 2 in, 7 ft\n0-2, 7 ft, 3 m"}}})
	b.Pond.Displacing = []*pb.Displacing{{Size: &pb.Displacing_MassKg{MassKg: 530}}}
	resp, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: b})
	require.NoError(t, err)
	assert.NotEmpty(t, resp.GetKits())
	assert.InDelta(t, 200, resp.GetPond().GetDisplacedL(), 1e-9)
	assert.Contains(t, foundIn(resp.GetFindings()), "WATER_DISPLACED")
}
