//go:build race

package host_test

// raceDetector is on: it takes more memory than any limit that is of use.
const raceDetector = true
