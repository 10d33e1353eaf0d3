package electric

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Conductor is a size of plain stranded copper.
type Conductor struct {
	MM2   float64
	At20  unit.LineResistance // greatest, at 20 °C
	Table float64             // mV/(A m) of a two-core cable at 70 °C; 0 where the table has none
}

// Conductors are the usual sizes, smallest first. Resistances: IEC 60228. Millivolts: BS 7671.
func Conductors() []Conductor {
	r := unit.OhmsPerKilometre
	return []Conductor{
		{MM2: 0.75, At20: r(24.5)}, {MM2: 1, At20: r(18.1), Table: 44}, {MM2: 1.5, At20: r(12.1), Table: 29}, {MM2: 2.5, At20: r(7.41), Table: 18},
		{MM2: 4, At20: r(4.61), Table: 11}, {MM2: 6, At20: r(3.08), Table: 7.3}, {MM2: 10, At20: r(1.83), Table: 4.4}, {MM2: 16, At20: r(1.15), Table: 2.8},
	}
}

// leastFixed is the least size looked at for a supply to a garden: thinner is for cords.
const leastFixed = 1.5

// Usual values, of common practice unless they say otherwise.
const (
	UsualVoltage   = unit.Voltage(230)
	UsualDropLimit = unit.Ratio(0.05)
	// MotorFactor is the power factor of a small pump motor at the cautious end.
	MotorFactor = unit.Ratio(0.6)
	// hot is the temperature that the tables take the conductor at.
	hot = unit.Temperature(70)
)

// A Load is one thing on the cable.
type Load struct {
	Name   string
	Power  unit.Power
	Factor unit.Ratio
}

// A Supply is a cable and what hangs on its end.
type Supply struct {
	Voltage unit.Voltage
	Length  unit.Length // 0 where not known
	Limit   unit.Ratio  // of the voltage
	MM2     float64     // 0 looks for the least
	Loads   []Load
}

// A Drop is what one size of conductor loses.
type Drop struct {
	Conductor
	Voltage, Table unit.Voltage // by resistance and by table; Table is 0 where there is none
	Share          unit.Ratio   // of Voltage
	TableShare     unit.Ratio
	Within         bool
}

// An Assessed supply.
type Assessed struct {
	Currents []unit.Current // by load
	Current  unit.Current   // their sum, a little more than what flows, for not all are in step
	Power    unit.Power
	Drops    []Drop
	Chosen   float64 // mm²; 0 where no size keeps the limit or no length is known
	Findings []finding.Finding
}

// Assess works out currents and drops. The error is an input.Errors.
func Assess(t *working.Trail, s Supply) (Assessed, error) {
	if err := s.check().Err(); err != nil {
		return Assessed{}, err
	}
	var a Assessed
	for _, l := range s.Loads {
		t.About(l.Name)
		i := LoadCurrent.Run(t, CurrentInput{Power: l.Power, Voltage: s.Voltage, Factor: l.Factor})
		a.Currents, a.Current, a.Power = append(a.Currents, i), a.Current+i, a.Power+l.Power
	}
	if s.Length <= 0 || a.Power <= 0 {
		return a, nil
	}
	factor := unit.Ratio(a.Power.Watts() / (s.Voltage.Volts() * a.Current.Amperes()))
	for _, c := range Conductors() {
		if s.MM2 > 0 && c.MM2 != s.MM2 || s.MM2 == 0 && c.MM2 < leastFixed {
			continue
		}
		d := drop(t, s, c, a.Current, factor)
		a.Drops = append(a.Drops, d)
		if d.Within && a.Chosen == 0 {
			a.Chosen = c.MM2
		}
	}
	a.Findings = s.findings(a)
	return a, nil
}

func drop(t *working.Trail, s Supply, c Conductor, i unit.Current, factor unit.Ratio) Drop {
	t.About(fmt.Sprintf("cable, %g mm²", c.MM2))
	warm := HotResistance.Run(t, HeatInput{At20: c.At20, Temperature: hot})
	d := Drop{Conductor: c, Voltage: DropByResistance.Run(t, ResistanceDropInput{Current: i, Length: s.Length, Resistance: warm, Factor: factor})}
	d.Share = DropShare.Run(t, ShareInput{Drop: d.Voltage, Voltage: s.Voltage})
	if c.Table > 0 {
		d.Table = DropByTable.Run(t, TableDropInput{Current: i, Length: s.Length, PerAmpereMetre: c.Table})
		d.TableShare = DropShare.Run(t, ShareInput{Drop: d.Table, Voltage: s.Voltage})
	}
	d.Within = max(d.Share, d.TableShare) <= s.Limit
	return d
}

func (s Supply) check() input.Errors {
	var errs input.Errors
	errs.Between("voltage_v", s.Voltage.Volts(), 6, 480, "give the voltage of the supply")
	errs.Between("cable_m", s.Length.Metres(), 0, 2000, "give the length of the cable one way")
	errs.Between("drop_limit_percent", s.Limit.Percent(), 0.1, 50, "give the share of the voltage that may be lost")
	for i, l := range s.Loads {
		errs.Between(fmt.Sprintf("loads[%d].power_w", i), l.Power.Watts(), 0, 1e6, "give its power")
		errs.Between(fmt.Sprintf("loads[%d].power_factor", i), l.Factor.Float(), 0.05, 1, "give a power factor of 1 at most")
	}
	if known := conductorOf(s.MM2); s.MM2 != 0 && !known {
		errs.Add("conductor_mm2", "give one of 0.75, 1, 1.5, 2.5, 4, 6, 10 and 16", "no resistance is known of a conductor of %g mm²", s.MM2)
	}
	return errs
}

func conductorOf(mm2 float64) bool {
	for _, c := range Conductors() {
		if c.MM2 == mm2 {
			return true
		}
	}
	return false
}

// extraLow is the voltage below which a supply counts as extra-low.
const extraLow = unit.Voltage(50)

func (s Supply) findings(a Assessed) []finding.Finding {
	var found []finding.Finding
	if a.Chosen == 0 && len(a.Drops) > 0 {
		last := a.Drops[len(a.Drops)-1]
		worst := max(last.Share, last.TableShare)
		found = append(found, finding.Finding{
			Code: "VOLTAGE_DROPS_TOO_FAR", Severity: finding.Caution, Subject: "cable",
			Sentence: fmt.Sprintf("Over %g m a conductor of %g mm² loses %.1f %% of %g V; %g %% is the limit.", s.Length.Metres(), last.MM2, worst.Percent(), s.Voltage.Volts(), s.Limit.Percent()),
			Value:    finding.Of(worst.Percent(), "%"), Limit: finding.Of(s.Limit.Percent(), "%"),
			Change: "take a thicker conductor, a supply nearer by, or ask the electrician for another way", Source: source.VoltDropLimit,
		})
	}
	if s.Voltage < extraLow {
		found = append(found, finding.Finding{
			Code: "LOW_VOLTAGE_LOSES_MORE", Severity: finding.Caution, Subject: "cable",
			Sentence: fmt.Sprintf("At %g V the same power takes %.0f times the current it takes at 230 V, and the cable loses so much more of the voltage.", s.Voltage.Volts(), float64(UsualVoltage/s.Voltage)),
			Change:   "keep the cable short and thick, and measure the voltage at the pump while it runs", Source: source.Circuits,
		})
	}
	return found
}
