"""The instructor's corner: its door, boards, sheets, marks, answer keys, class debrief."""
