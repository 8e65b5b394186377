//! `wrong-type`

code! {
    "wrong-type"
    title: "The value has the wrong type" | "Der Wert hat die falsche Art",
    message: "\"{key}\" must be {expected}, not {found}" | "„{key}“ muss {expected} sein, nicht {found}",
    label: "must be {expected}" | "muss {expected} sein",
    hint:
        "<only one can stand here, without [ ]: {written:or}><write {bare}, without quotes><there is no day {no_such_day}: year, month from 01 to 12, day; without quotes>"
        | "<hier kann nur eines stehen, ohne [ ]: {written:or}><{bare} schreiben, ohne Anführungszeichen><den Tag {no_such_day} gibt es nicht: Jahr, Monat von 01 bis 12, Tag; ohne Anführungszeichen>",
    english:
        /// Text and quantities stand in quotes, counts and true/false do not, lists stand in square brackets.
        ///
        /// Example: `existing = "yes"`. Write `existing = true`.
    german:
        /// Texte und Größen stehen in Anführungszeichen, Anzahlen und true/false nicht, Listen stehen in eckigen Klammern.
        ///
        /// Beispiel: `existing = "yes"`. Richtig ist `existing = true`.
}
