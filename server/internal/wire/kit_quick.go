package wire

import (
	"fmt"
	"math"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Usual lengths of young fish as they are sold, in cm. Common practice, no source.
var youngFish = map[pb.Species]float64{
	pb.Species_SPECIES_GOLDFISH: 10, pb.Species_SPECIES_KOI: 20, pb.Species_SPECIES_CARP: 25, pb.Species_SPECIES_OTHER: 15,
}

// How much of length × width × depth is water. Common practice, no source.
var sides = map[pb.PondSides]struct {
	share float64
	words string
}{
	pb.PondSides_POND_SIDES_STEEP:   {0.85, "steep sides and a narrow shelf"},
	pb.PondSides_POND_SIDES_SHELVES: {0.60, "a free form with shelves"},
	pb.PondSides_POND_SIDES_SAUCER:  {0.35, "flat sides like a saucer"},
}

// depthOfLitres is how deep a pond is taken to be of which only litres are known. No kit depends on it.
const depthOfLitres = 0.8

// QuickBrief fills a brief from what can be asked across a counter, and names everything it takes for granted that a brief would
// have said. What a brief may leave out too is assumed, and named, where it is answered.
func QuickBrief(q *pb.QuickBrief) (*pb.Brief, []finding.Finding) {
	b := &pb.Brief{
		Delivery: &pb.Delivery{HoseLengthM: q.GetHoseLengthM()},
		Running:  &pb.Running{EnergyPricePerKwh: q.EnergyPricePerKwh, Currency: q.GetCurrency()},
		Wishes:   &pb.Wishes{Budget: q.Budget, Availability: q.GetAvailability()},
		Owned:    q.GetOwned(),
	}
	var found []finding.Finding
	b.Pond, found = quickPond(q)
	tails := int32(2)
	if q.GetFishCount() > 0 {
		tails = 4
		length := youngFish[q.GetFish()]
		if q.FishLengthCm != nil {
			length = q.GetFishLengthCm()
		} else {
			found = append(found, assume.Note("fish", "The length of the fish", length, "cm", "measure one, tail included"))
		}
		b.Stock = &pb.Stock{Groups: []*pb.FishGroup{{Species: q.GetFish(), Count: q.GetFishCount(), LengthCm: length}}}
	}
	b.Delivery.Fittings = []*pb.Fitting{
		{Kind: pb.FittingKind_FITTING_KIND_BEND_90, Count: 2}, {Kind: pb.FittingKind_FITTING_KIND_HOSE_TAIL, Count: tails},
	}
	found = append(found, taken("hose", fmt.Sprintf("What the hose has on its way was not asked; 2 slow bends and %d hose tails are assumed.", tails),
		"count bends, corners, valves and tails"))
	if fall := q.GetFall(); fall != nil {
		b.Fall = &pb.Fall{HeightM: fall.HeightM, SillWidthCm: fall.GetWidthCm()}
		sheet := fall.GetSheet()
		if sheet == pb.Sheet_SHEET_UNSPECIFIED {
			sheet = pb.Sheet_SHEET_FULL
			found = append(found, taken("fall", "How the fall is to look was not asked; a full sheet is assumed.", "say thin, full or heavy"))
		}
		b.Fall.Wanted = &pb.Fall_Sheet{Sheet: sheet}
		return b, found
	}
	b.Delivery.OutletHeightM = proto.Float64(0)
	found = append(found, taken("outlet", "There is no fall; the water is assumed to come back at the surface of the pond.", "say how high above the water it ends"))
	return b, found
}

func taken(subject, sentence, change string) finding.Finding {
	return finding.Finding{Code: "ASSUMED", Severity: finding.Note, Subject: subject, Sentence: sentence, Change: change, Source: source.Choice}
}

// quickPond is a pond that holds the litres: of a square where there is nothing else to go by, and else of a rectangle with a
// floor as large as makes it so.
func quickPond(q *pb.QuickBrief) (*pb.Pond, []finding.Finding) {
	size := q.GetSize()
	if size == nil {
		side := math.Sqrt(q.GetVolumeL() / 1000 / depthOfLitres)
		note := taken("pond", fmt.Sprintf("Only litres were given; a square pond with upright sides, %.2f m deep, is assumed. No kit depends on its shape.", depthOfLitres),
			"give length, width and depth")
		return onePond(side, side, depthOfLitres), []finding.Finding{note}
	}
	pond := onePond(size.GetLengthM(), size.GetWidthM(), size.GetDepthM())
	switch s, leans := sides[size.GetSides()]; {
	case leans:
		// The floor that makes a frustum hold that share of the box: (1 + x + x²)/3 = share, x² the floor by the surface.
		x := (math.Sqrt(12*s.share-3) - 1) / 2
		bay := pond.Bays[0]
		bay.Contours = []*pb.Contour{{
			DepthM: size.GetDepthM(), Extent: &pb.Contour_AreaM2{AreaM2: x * x * size.GetLengthM() * size.GetWidthM()},
		}}
		return pond, []finding.Finding{{
			Code: "ASSUMED", Severity: finding.Caution, Subject: "pond", Source: source.Practice,
			Sentence: fmt.Sprintf("A pond with %s is taken to hold %.0f %% of length by width by depth.", s.words, 100*s.share),
			Value:    finding.Of(100*s.share, "%"), Change: "measure depths, or fill it through a water meter",
		}}
	case size.GetSides() == pb.PondSides_POND_SIDES_UNSPECIFIED:
		note := taken("pond", "How the sides lean was not given; upright ones are assumed. With shelves it holds some 60 % of that, as a saucer some 35 %.",
			"say how the sides are")
		note.Severity = finding.Caution
		return pond, []finding.Finding{note}
	}
	return pond, nil
}

func onePond(length, width, depth float64) *pb.Pond {
	return &pb.Pond{Bays: []*pb.Bay{{
		Name: "pond", DepthM: depth, Outline: &pb.Bay_Rectangle{Rectangle: &pb.Rectangle{LengthM: length, WidthM: width}},
	}}}
}
