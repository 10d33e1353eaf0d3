//go:build !race

package misbehave

// RaceDetector is off.
const RaceDetector = false
