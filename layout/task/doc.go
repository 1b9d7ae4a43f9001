// Package task makes exercises from a piece: what the student is given, what
// is asked, and the answer as the model computes it. It decides nothing of how
// they are written out.
//
//   - layout/task makes exercises: every excerpt is a small score.Piece of its own,
//     settled again; student notation is the laid sheet with marks, beams or bars taken
//     away (sheets.go). Each answer is worked out a second time, from bare numbers, in
//     task_test.go, and once more by a student who has only the printed sheet
//     (worksheet/student_test.go). Laws: what is asked follows from what is given
//     (sense_test.go), rows of signs end at no barlines, and no exercise prints what
//     another asks (printed.go; worksheet/pupil_test.go). A new kind: a constant in
//     kinds, a method of setter, a second route in the test, a row in the README.
package task
