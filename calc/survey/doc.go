// Package survey turns tape measurements into the points of a pond's outline: distances from two pegs, running ties from
// point to point, offsets from a string line, and a smooth bank through a few points. It also reads them as they are
// written down on site, each length with its own unit.
//
// A measurement that cannot be right is an input.Error that names it. One that can be right but is weak is a finding.
// Tapes are read level: a tape that follows a slope of 1 in 7 reads 1 % long.
package survey
