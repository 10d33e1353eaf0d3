package circuit

// An Outcome says whether pump and circuit meet, and on which side they miss each other.
type Outcome int

// The ways it can end.
const (
	Meets         Outcome = iota + 1 // there is a duty point
	CannotLift                       // the lift is as high as the pump's head at no flow, or higher
	BelowCurve                       // they meet at a smaller flow than the first point of the curve
	BeyondCurve                      // they meet at a greater flow than the last point of the curve
	NotCalculable                    // a number somewhere is not one
	CannotStart                      // the lift is higher than the pump's head at no flow, though lower than its greatest
	PushedBack                       // a pump is overcome by another, and nothing keeps water from running back through it
	OnRisingCurve                    // a pump would work where its head rises with flow, beside others: no flow is settled
)

// Words are the outcome in plain words.
func (o Outcome) Words() string {
	switch o {
	case Meets:
		return "pump and circuit meet"
	case CannotLift:
		return "the water has to be lifted higher than the pump can"
	case BelowCurve:
		return "pump and circuit meet below the first point of the curve"
	case BeyondCurve:
		return "pump and circuit meet beyond the last point of the curve"
	case CannotStart:
		return "the pump cannot start against the lift"
	case PushedBack:
		return "a stronger pump pushes water back through a weaker one"
	case OnRisingCurve:
		return "a pump would work where its head rises with flow"
	default:
		return "a number is not one"
	}
}
