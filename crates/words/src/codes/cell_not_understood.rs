//! `cell-not-understood`

code! {
    "cell-not-understood"
    title: "A cell does not hold what its column is for" | "Eine Zelle enthält nicht, wofür ihre Spalte da ist",
    message:
        "<{column}: >\"{found}\" is not {expected}"
        | "<{column}: >„{found}“ ist nicht, was hier stehen soll ({expected})",
    english:
        /// The column holds lengths, numbers, words or names, and this cell something else.
        ///
        /// Example: "12 kg" under Drop. Write a length in metres, such as 12.5.
    german:
        /// Die Spalte enthält Längen, Zahlen, Wörter oder Namen, und diese Zelle etwas anderes.
        ///
        /// Beispiel: „12 kg“ unter Drop. Eine Länge in Metern schreiben, etwa 12,5.
}
