//! `no-place-for-boxes`

code! {
    "no-place-for-boxes"
    title: "No place may hold a box" | "An keinem Ort darf ein Verteiler sitzen",
    message: "no place may hold a box" | "An keinem Ort darf ein Verteiler sitzen",
    hint: "write yes under \"Boxes\" where one may hang" | "unter „Boxes“ yes schreiben, wo einer sitzen darf",
    english:
        /// Distributors need a place. Write yes under Boxes where one may hang.
    german:
        /// Verteiler brauchen einen Ort. Unter Boxes yes schreiben, wo einer sitzen darf.
}
