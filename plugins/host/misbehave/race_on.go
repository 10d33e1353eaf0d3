//go:build race

package misbehave

// RaceDetector is on: it takes more memory than any limit that is of use.
const RaceDetector = true
