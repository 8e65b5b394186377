//! `name-used-twice`

code! {
    "name-used-twice"
    title: "A name is used twice" | "Ein Name wird zweimal verwendet",
    message:
        "<{column}: >\"{name}\" is used already in row {row}"
        | "<{column}: >„{name}“ steht schon in Zeile {row}",
    hint: "names must differ" | "Namen müssen sich unterscheiden",
    english:
        /// Names tell places, dwellings and entrances apart, so each is used once. The row that used it first is told.
    german:
        /// Namen unterscheiden Orte, Wohnungen und Eingänge; jeder steht darum nur einmal. Die Zeile, in der er zuerst stand, wird genannt.
}
