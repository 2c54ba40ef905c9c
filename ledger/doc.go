// Package ledger is the domain: what an owner writes down (Books), and what
// costing makes of it (postings). It reads and writes no files.
//
// The path of the data: intake turns files into Books, checks looks across
// the tables, costing folds the months of Books into Postings, figures sums
// Postings into what is printed, and report lays that out.
package ledger
