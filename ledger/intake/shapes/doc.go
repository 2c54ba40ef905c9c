// Package shapes holds tests alone: the sample's months in every shape we know
// records to be kept in, as files of text and as workbooks, by this program's
// own writers and by others; each comes to the same figures.
package shapes
