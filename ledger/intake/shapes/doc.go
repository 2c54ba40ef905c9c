// Package shapes holds tests alone: files as they come, damaged and odd ones
// too; and the sample's months in every shape we know records to be kept in, by
// this program's own writers and by others, each with the same figures.
package shapes
