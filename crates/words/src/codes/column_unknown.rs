//! `column-unknown`

code! {
    "column-unknown"
    title: "A column is not used" | "Eine Spalte wird nicht verwendet",
    message: "the column \"{column}\" is not used" | "Die Spalte „{column}“ wird nicht verwendet",
    hint: "<did you mean {nearest:or}?>" | "<gemeint {nearest:or}?>",
    english:
        /// The heading resembles one that is used, but is not it. What stands below it is not read.
        ///
        /// Spell it as in the template, or leave it if it is a column of your own.
    german:
        /// Die Überschrift ähnelt einer, die verwendet wird, ist sie aber nicht. Was darunter steht, wird nicht gelesen.
        ///
        /// Wie in der Vorlage schreiben oder stehen lassen, wenn es eine eigene Spalte ist.
}
