package ripening

import "example.com/pondwright/calc/unit"

// The model works in days and g/m³, which is mg/L.

// Components of the state.
const (
	tan     = iota // total ammonia, as nitrogen
	nitrite        // as nitrogen
	nitrate        // as nitrogen
	oxidA          // bacteria on ammonia, dry, by pond volume
	oxidB          // bacteria on nitrite
	left           // nitrogen that has left with the water since the start
	components
)

// A model is one stretch of constant load.
type model struct {
	growthA, halfA, yieldA, decayA float64 // growth with oxygen and pH in it
	growthB, halfB, yieldB, decayB float64
	load                           float64 // g/(m³ day)
	exchange                       float64 // 1/day
	tapTAN, tapNitrate             float64
	room                           float64 // most bacteria; 0 is no limit
}

func newModel(in Input, k Kinetics, pH unit.Ratio) model {
	oxygen := func(half unit.Concentration) float64 { return float64(in.Oxygen) / float64(half+in.Oxygen) }
	return model{
		growthA: k.GrowthA.PerDay() * oxygen(k.OxygenA) * pH.Float(),
		halfA:   k.HalfA.MilligramsPerLitre(), yieldA: k.YieldA.Float(), decayA: k.DecayA.PerDay(),
		growthB: k.GrowthB.PerDay() * oxygen(k.OxygenB) * pH.Float(),
		halfB:   k.HalfB.MilligramsPerLitre(), yieldB: k.YieldB.Float(), decayB: k.DecayB.PerDay(),
		exchange: in.Exchange.PerDay(),
		tapTAN:   in.TapTAN.MilligramsPerLitre(), tapNitrate: in.TapNitrate.MilligramsPerLitre(),
		room: in.Room.MilligramsPerLitre(),
	}
}

// rates are the right-hand side: Monod growth of both kinds on what the one before leaves, in a stirred pond whose water
// is changed little by little. The bacteria sit on the media and are not washed out. What grows is taken to hold no
// nitrogen: 2 % of the turnover.
func (m *model) rates(_ float64, y, dy []float64) {
	muA := m.growthA * monod(y[tan], m.halfA)
	muB := m.growthB * monod(y[nitrite], m.halfB)
	tookA := muA * y[oxidA] / m.yieldA
	tookB := muB * y[oxidB] / m.yieldB
	space := 1.0
	if m.room > 0 {
		space = 1 - (y[oxidA]+y[oxidB])/m.room
	}
	D := m.exchange
	dy[tan] = m.load + D*(m.tapTAN-y[tan]) - tookA
	dy[nitrite] = tookA - tookB - D*y[nitrite]
	dy[nitrate] = tookB + D*(m.tapNitrate-y[nitrate])
	dy[oxidA] = (muA*space - m.decayA) * y[oxidA]
	dy[oxidB] = (muB*space - m.decayB) * y[oxidB]
	dy[left] = D * (y[tan] + y[nitrite] + y[nitrate])
}

// monod is nothing where rounding has left a trace less than nothing.
func monod(s, half float64) float64 {
	if s <= 0 {
		return 0
	}
	return s / (half + s)
}
