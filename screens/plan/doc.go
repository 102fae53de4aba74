// Package plan is the place of the plan over weeks: what a person wishes for with
// the verdict on each, when each purchase may come and what it waits for, drawn and
// in words, what to ask the shop, and the shopping slip.
//
// The page shows what the keeper answers and decides nothing; what it is asked to
// do it asks of the keeper, each as one step that can be taken back.
package plan
