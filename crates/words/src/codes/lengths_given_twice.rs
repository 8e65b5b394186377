//! `lengths-given-twice`

code! {
    "lengths-given-twice"
    title: "The lengths of a run are given in two ways" | "Die Längen eines Strangs sind auf zwei Arten angegeben",
    message:
        "the lengths of run {run} are given in more than one way: {keys}"
        | "Die Längen des Strangs {run} sind auf mehr als eine Art angegeben: {keys}",
    hint:
        "keep one of length, lengths, or first with spacing"
        | "nur eines behalten: length, lengths, oder first mit spacing",
    english:
        /// Use only one of `length`, `lengths`, and `first` with `spacing`.
    german:
        /// Nur eines angeben: `length`, `lengths`, oder `first` mit `spacing`.
}
