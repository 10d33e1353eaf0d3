package wire

import (
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/uv/kill"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var groups = map[kill.Group]pb.OrganismGroup{
	kill.GreenAlgae:     pb.OrganismGroup_ORGANISM_GROUP_GREEN_ALGAE,
	kill.BlueGreenAlgae: pb.OrganismGroup_ORGANISM_GROUP_BLUE_GREEN_ALGAE,
	kill.Bacteria:       pb.OrganismGroup_ORGANISM_GROUP_BACTERIA,
	kill.Viruses:        pb.OrganismGroup_ORGANISM_GROUP_VIRUSES,
	kill.Fungi:          pb.OrganismGroup_ORGANISM_GROUP_FUNGI,
	kill.Parasites:      pb.OrganismGroup_ORGANISM_GROUP_PARASITES,
}

var outcomes = map[kill.Outcome]pb.DoseOutcome{
	kill.NoEffect:     pb.DoseOutcome_DOSE_OUTCOME_NO_EFFECT,
	kill.GrowthHeld:   pb.DoseOutcome_DOSE_OUTCOME_GROWTH_HELD,
	kill.Damaged:      pb.DoseOutcome_DOSE_OUTCOME_DAMAGED,
	kill.Inactivated:  pb.DoseOutcome_DOSE_OUTCOME_INACTIVATED,
	kill.NotInfective: pb.DoseOutcome_DOSE_OUTCOME_NOT_INFECTIVE,
	kill.Killed:       pb.DoseOutcome_DOSE_OUTCOME_KILLED,
}

var targets = map[kill.Target]pb.DrinkingWaterTarget{
	kill.Cryptosporidium: pb.DrinkingWaterTarget_DRINKING_WATER_TARGET_CRYPTOSPORIDIUM,
	kill.Giardia:         pb.DrinkingWaterTarget_DRINKING_WATER_TARGET_GIARDIA,
	kill.Virus:           pb.DrinkingWaterTarget_DRINKING_WATER_TARGET_VIRUS,
}

// DoseResponse turns a published dose into a message; nil is none.
func DoseResponse(r *kill.Response) *pb.DoseResponse {
	if r == nil {
		return nil
	}
	return &pb.DoseResponse{
		Key: r.Key, Organism: r.Organism, Group: groups[r.Group], LowMjPerCm2: r.Low.MillijoulesPerSquareCentimetre(),
		HighMjPerCm2: r.High.MillijoulesPerSquareCentimetre(), Outcome: outcomes[r.Outcome], Log10Reduction: given(r.Log10.Float()),
		Effect: r.Effect, Source: Source(r.Source),
	}
}

// DoseResponses turns the published doses of a group into messages; all of them where no group is named.
func DoseResponses(responses []kill.Response, group pb.OrganismGroup) []*pb.DoseResponse {
	var made []*pb.DoseResponse
	for _, r := range responses {
		if group == pb.OrganismGroup_ORGANISM_GROUP_UNSPECIFIED || groups[r.Group] == group {
			made = append(made, DoseResponse(&r))
		}
	}
	return made
}

// DrinkingWaterDoses turns the doses of national rules into messages.
func DrinkingWaterDoses(rows []kill.DrinkingWaterDose) []*pb.DrinkingWaterDose {
	made := make([]*pb.DrinkingWaterDose, len(rows))
	for i, r := range rows {
		made[i] = &pb.DrinkingWaterDose{
			Target: targets[r.Target], Log10Inactivation: r.Log10.Float(), DoseMjPerCm2: r.Dose.MillijoulesPerSquareCentimetre(),
			Source: Source(r.Source),
		}
	}
	return made
}

// DrinkingWaterCredits turns what national rules would grant a dose into messages.
func DrinkingWaterCredits(dose unit.Fluence) []*pb.DrinkingWaterCredit {
	var made []*pb.DrinkingWaterCredit
	for _, target := range []kill.Target{kill.Cryptosporidium, kill.Giardia, kill.Virus} {
		log10, from := kill.DrinkingWaterCredit(target, dose)
		made = append(made, &pb.DrinkingWaterCredit{Target: targets[target], Log10Inactivation: log10.Float(), Source: Source(from)})
	}
	return made
}

var reaches = map[uv.Reach]pb.DoseReach{
	uv.Below:  pb.DoseReach_DOSE_REACH_BELOW,
	uv.Within: pb.DoseReach_DOSE_REACH_WITHIN,
	uv.Above:  pb.DoseReach_DOSE_REACH_ABOVE,
}

// Inactivations turns what one pass does into messages.
func Inactivations(effects []uv.Effect) []*pb.Inactivation {
	made := make([]*pb.Inactivation, len(effects))
	for i, e := range effects {
		made[i] = &pb.Inactivation{
			Published: DoseResponse(e.Published), D10MjPerCm2: given(e.D10.MillijoulesPerSquareCentimetre()), Dose: passDose(e.Pass),
			Reach: reaches[e.Reach], Log10Reduction: ratioBand(e.Log, unit.Ratio.Float), TakenPercent: ratioBand(e.Share, unit.Ratio.Percent),
			AtLeast: e.AtLeast,
		}
	}
	return made
}

func passDose(p uv.Pass) *pb.PassDose {
	return &pb.PassDose{
		LowMjPerCm2: p.Band.Low.MillijoulesPerSquareCentimetre(), Reason: p.Reason,
		TanksMjPerCm2:          given(p.Tanks.MillijoulesPerSquareCentimetre()),
		PlugFlowMjPerCm2:       p.Plug.MillijoulesPerSquareCentimetre(),
		FastestMjPerCm2:        p.Fastest.MillijoulesPerSquareCentimetre(),
		UnmixedMjPerCm2:        given(p.Unmixed.MillijoulesPerSquareCentimetre()),
		UnmixedLaminarMjPerCm2: given(p.UnmixedLaminar.MillijoulesPerSquareCentimetre()),
	}
}

func ratioBand(b *uv.RatioBand, in func(unit.Ratio) float64) *pb.Band {
	if b == nil {
		return nil
	}
	return &pb.Band{Low: in(b.Low), Expected: in(b.Expected), High: in(b.High)}
}
