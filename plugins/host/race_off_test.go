//go:build !race

package host_test

// raceDetector is off.
const raceDetector = false
