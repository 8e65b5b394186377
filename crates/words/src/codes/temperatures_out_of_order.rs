//! `temperatures-out-of-order`

code! {
    "temperatures-out-of-order"
    title: "The temperatures are out of order" | "Die Temperaturen sind in falscher Reihenfolge",
    message:
        "the temperatures are out of order: coldest {coldest}, usual {usual}, hottest {hottest}"
        | "Die Temperaturen sind in falscher Reihenfolge: kälteste {coldest}, übliche {usual}, wärmste {hottest}",
    label: "out of order" | "in falscher Reihenfolge",
    english:
        /// The coldest conductor temperature must not lie above the usual one, nor that above the hottest. Those that you leave out are 0 °C, 20 °C and 40 °C.
    german:
        /// Die kälteste Leitertemperatur darf nicht über der üblichen liegen, diese nicht über der wärmsten. Was Sie weglassen, ist 0 °C, 20 °C und 40 °C.
}
