// Package fish is the place where a person sees what lives in the tank: how many
// of each, since when, how long they are today, whether they get on and how full
// the tank is; and where they write down who came, was born, left or died. A fish or a group has a
// page of its own with its growth, its pictures and what the daybook tells of it.
package fish
