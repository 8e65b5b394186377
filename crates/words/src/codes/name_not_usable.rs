//! `name-not-usable`

code! {
    "name-not-usable"
    title: "This cannot be a name" | "Dies kann kein Name sein",
    message: "<{column}: >\"{name}\" cannot be a name" | "<{column}: >„{name}“ kann kein Name sein",
    hint: "use up to 60 letters, digits, '-' and '_'" | "bis zu 60 Buchstaben, Ziffern, „-“ und „_“ verwenden",
    english:
        /// Site files hold names of up to 60 letters, digits, '-' and '_'.
        ///
        /// Example: "Flat 3/left". Write Flat-3-left.
    german:
        /// Anlagendateien nehmen Namen aus bis zu 60 Buchstaben, Ziffern, „-“ und „_“.
        ///
        /// Beispiel: „Flat 3/left“. Flat-3-left schreiben.
}
