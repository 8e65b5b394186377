//! `column-twice`

code! {
    "column-twice"
    title: "Two headings mean the same column" | "Zwei Überschriften meinen dieselbe Spalte",
    message: "a second column for \"{column}\"" | "Eine zweite Spalte für „{column}“",
    hint: "keep one" | "eine behalten",
    english:
        /// Which of the two holds the values is not guessed. Keep one.
    german:
        /// Welche der beiden gilt, wird nicht geraten. Eine behalten.
}
