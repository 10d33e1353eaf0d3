package pipe

import "example.com/pondwright/calc/working"

// Formulas lists the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{
		&Velocity, &Reynolds, &FrictionFactor, &CorrugatedFactor, &RibbedFactor, &FrictionLoss, &MinorLoss,
		&ThreeK, &TwoK, &EquivalentLengths, &RoundedEntryLoss, &LossOfKv, &KvOfLoss, &KvLoss, &KvFor,
		&Tail, &SuddenNarrowing, &SuddenWidening, &ConicalNarrowing, &ConicalWidening, &ReferToBore,
		&ConvergingBranch, &ConvergingRun, &DivergingBranch, &DivergingRun, &OpeningVelocity,
	}
}
