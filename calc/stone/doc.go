// Package stone measures stone in and around a pond: what it weighs, the water it displaces, and the edging and mortar a
// rim takes.
package stone
