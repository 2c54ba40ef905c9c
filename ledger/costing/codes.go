package costing

import "piecebook/ledger/fault"

// The codes of this room, for short.
const (
	CodeTakenBackMore = fault.TakenBackMore
	CodeUsedMore      = fault.UsedMore
	CodeNoCoverage    = fault.NoCoverage
	CodeCountAbove    = fault.CountAbove
	CodeLateCost      = fault.LateCost
)
