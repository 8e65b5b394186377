//! `duplicate-key`

code! {
    "duplicate-key"
    title: "The same name or key is defined twice" | "Derselbe Name oder Schlüssel steht zweimal da",
    message: "\"{key}\" is defined twice" | "„{key}“ ist zweimal definiert",
    label: "defined again here" | "hier noch einmal definiert",
    hint:
        "rename one of the two, or remove it<; {wanted} is used and defined nowhere: is the second to be this?>"
        | "eines von beiden umbenennen oder entfernen<; {wanted} wird verwendet und ist nirgends definiert: soll das zweite so heißen?>",
    english:
        /// Within one table every name and key may stand once; otherwise nobody can say which of the two holds. Both places are shown.
        ///
        /// Example: two lines that begin with `A-101 =` under [dwellings]. Rename one or remove it.
    german:
        /// In einer Tabelle darf jeder Name und jeder Schlüssel einmal stehen; sonst kann niemand sagen, welcher gilt. Beide Stellen werden gezeigt.
        ///
        /// Beispiel: zwei Zeilen unter [dwellings], die mit `A-101 =` beginnen. Eine umbenennen oder entfernen.
}
