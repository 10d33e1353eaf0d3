package climate

import (
	"fmt"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// YearDays is how many days a year of months has: 29 February is left out.
const YearDays = 365

// daysOfMonth are those of a common year.
var daysOfMonth = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// A Month is the weather of a month on an average of years.
type Month struct {
	Least    unit.Temperature // mean of the daily lowest
	Most     unit.Temperature
	Vapour   unit.Pressure
	Wind     unit.Velocity
	Sunshine unit.Time   // a day
	Rain     unit.Length // of the whole month
	RainDays *int        // days it falls on; nil spreads it over every day
}

// Months are those of a year, January first.
type Months [12]Month

// Check says what is wrong with the months, as an input.Errors with fields from months on.
func (m Months) Check() error {
	var problems input.Errors
	for i, one := range m {
		path := fmt.Sprintf("months[%d]", i)
		problems.AddUnder(path, Day{Least: one.Least, Most: one.Most, Vapour: one.Vapour, Wind: one.Wind, Sunshine: one.Sunshine}.Check())
		problems.Between(path+".rain_mm", one.Rain.Millimetres(), 0, 3000, "give the rain of the whole month")
		if one.RainDays != nil && (*one.RainDays < 0 || *one.RainDays > daysOfMonth[i] || *one.RainDays == 0 && one.Rain > 0) {
			problems.Add(path+".rain_days", "give the days with rain, or leave them out", "%d days of the month cannot bring its rain", *one.RainDays)
		}
	}
	return problems.Err()
}

// Days are the 365 days of the year from 1 January on. Temperature, vapour, wind and sunshine go smoothly through the year
// and keep the mean of each month to the last bits: they are the daily rise of a periodic cubic spline through the sums from
// month to month (source.Histospline). Where that would leave what is possible, the month is level instead; air
// that is damp to saturation holds no more than it can. Rain falls in
// equal parts on its days, which lie at even distances.
func (m Months) Days() []Day {
	days := make([]Day, YearDays)
	var least, swing, vapour, wind, sunshine [12]float64
	for i, one := range m {
		least[i], swing[i] = float64(one.Least), float64(one.Most-one.Least)
		vapour[i], wind[i], sunshine[i] = float64(one.Vapour), float64(one.Wind), float64(one.Sunshine)
	}
	l, s := Smooth(least, -100), Smooth(swing, 0)
	v, w, n := Smooth(vapour, 0), Smooth(wind, 0), Smooth(sunshine, 0)
	for d := range days {
		days[d] = Day{
			Date: d + 1, Least: unit.Temperature(l[d]), Most: unit.Temperature(l[d] + s[d]), Vapour: unit.Pressure(v[d]),
			Wind: unit.Velocity(w[d]), Sunshine: min(unit.Time(n[d]), unit.Hours(24)),
		}
		days[d].Vapour = min(days[d].Vapour, Saturation.Eval(AirInput{Temperature: days[d].Most})) // what is more falls as dew
	}
	m.rain(days)
	return days
}

// rain spreads each month's rain over its days.
func (m Months) rain(days []Day) {
	first := 0
	for i, one := range m {
		length := daysOfMonth[i]
		falls := length
		if one.RainDays != nil {
			falls = *one.RainDays
		}
		for k := range falls {
			days[first+(2*k+1)*length/(2*falls)].Rain += one.Rain / unit.Length(falls)
		}
		first += length
	}
}

// MonthOf is the month, 0 for January, of a day of a common year, 1 for 1 January.
func MonthOf(date int) int {
	for i, length := range daysOfMonth {
		if date -= length; date <= 0 {
			return i
		}
	}
	return 11
}

// Smooth spreads monthly means over the days of the year and keeps each of them. No day is less than the least.
func Smooth(means [12]float64, least float64) [YearDays]float64 {
	var days [YearDays]float64
	sums := sumSpline(means)
	first := 0
	for i, length := range daysOfMonth {
		level := false
		for d := range length {
			days[first+d] = sums.rise(i, d)
			level = level || days[first+d] < least
		}
		if level {
			for d := range length {
				days[first+d] = means[i]
			}
		}
		first += length
	}
	return days
}

// spline is the periodic cubic spline through the sums of what each month differs from the year's mean.
type spline struct {
	mean      float64
	sum, bend [13]float64 // at the turn of each month
}

// sumSpline solves the spline's bends: the slopes of its pieces meet at each turn of the month, December's at January's.
func sumSpline(means [12]float64) spline {
	var s spline
	for i, length := range daysOfMonth {
		s.mean += means[i] * float64(length) / YearDays
	}
	for i, length := range daysOfMonth {
		s.sum[i+1] = s.sum[i] + (means[i]-s.mean)*float64(length)
	}
	s.sum[12] = 0 // but for rounding it is
	var a [12][13]float64
	for i := range 12 {
		before, after := (i+11)%12, i
		hb, ha := float64(daysOfMonth[before]), float64(daysOfMonth[after])
		a[i][before] += hb / 6
		a[i][i] += (hb + ha) / 3
		a[i][(i+1)%12] += ha / 6
		a[i][12] = (s.sum[after+1]-s.sum[after])/ha - (s.sum[before+1]-s.sum[before])/hb
	}
	x := eliminate(a)
	copy(s.bend[:], x[:])
	s.bend[12] = s.bend[0]
	return s
}

// eliminate solves the equations by Gauss's method. The diagonal outweighs the rest of each row, so none need be swapped.
func eliminate(a [12][13]float64) (x [12]float64) {
	for i := range 12 {
		for r := i + 1; r < 12; r++ {
			f := a[r][i] / a[i][i]
			for c := i; c < 13; c++ {
				a[r][c] -= f * a[i][c]
			}
		}
	}
	for i := 11; i >= 0; i-- {
		x[i] = a[i][12]
		for c := i + 1; c < 12; c++ {
			x[i] -= a[i][c] * x[c]
		}
		x[i] /= a[i][i]
	}
	return x
}

// rise is that of the sum over day d of month i.
func (s spline) rise(i, d int) float64 {
	return s.at(i, float64(d+1)) - s.at(i, float64(d)) + s.mean
}

// at is the spline x days into month i.
func (s spline) at(i int, x float64) float64 {
	h := float64(daysOfMonth[i])
	a, b := (h-x)/h, x/h
	return a*s.sum[i] + b*s.sum[i+1] + ((a*a*a-a)*s.bend[i]+(b*b*b-b)*s.bend[i+1])*h*h/6
}
