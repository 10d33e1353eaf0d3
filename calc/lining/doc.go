// Package lining sizes a flexible pond lining: the sheet to order by the developed section and, beside it, by the simple
// rule of the trade; its weight, the strips it is made of, and what of it is wasted.
//
// The developed section is what a tape laid across the empty pond would read, down one side, over the floor and up the
// other. It is exact for a pond without islands; an island or ridge adds twice its rise, which the caller adds to the
// overlap.
package lining
