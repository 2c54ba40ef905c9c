package costing

// State is what one month hands to the next.
type State struct{}
