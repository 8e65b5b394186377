//! `no-dwellings`

code! {
    "no-dwellings"
    title: "There are no dwellings" | "Es gibt keine Wohnungen",
    message: "there are no dwellings" | "Es gibt keine Wohnungen",
    hint: "list them in the sheet \"Dwellings\"" | "im Blatt „Dwellings“ aufführen",
    english:
        /// There is nothing to design. List the dwellings with their places.
    german:
        /// Es gibt nichts zu entwerfen. Die Wohnungen mit ihren Orten aufführen.
}
