// Package kinds holds the kinds of furniture against each other: what each
// brought, how fast it sold, what it ties up, and which is worth the next
// hour. Money is exact and a sum of what the pieces' figures say; what is
// estimated from it (the ranking, its intervals, the shares sold in time) is
// in estimate.go and never added to anything.
package kinds
