use leptos::prelude::*;

use super::advice::good_photo;
use crate::page::dom;
use crate::present::photo::{MEASURES_BOX, MEASURES_DRAWN, definitions};

/// How the photo gauge works, and how each measure is defined.
#[component]
pub(crate) fn PhotoHelpPage() -> impl IntoView {
    dom::set_title("Help: photo gauge");
    let rows = definitions().into_iter().map(|(number, name, text)| {
        view! {
            <tr>
                <th scope="row">{number} ". " {name}</th>
                <td>{text}</td>
            </tr>
        }
    });
    view! {
        <div class="page-head"><div><h1>"Photo gauge"</h1></div></div>
        <div class="prose">
            <h2>"A good photo"</h2>
            {good_photo()}
            <h2>"What it goes by"</h2>
            <p>
                "The sheet’s four sides tell where the camera was and how its lens bends lines. What is measured is the upper edge of the ground face, which lies one thickness above the paper: so the thickness is asked for. Where the camera sees a wall of the shoe below that edge, it knows how wide the wall must show, and measures above it."
            </p>
            <p>
                "Each value comes with the range in which it lies with about 95 %. Where the edge cannot be told, what rests on it is left blank; where too little can be told, the photo is refused. Nothing is guessed, and the photo stays on this device."
            </p>
            <p>
                "It measures flat shoes, ground side up; or foot side up, where neither the fuller nor nail holes are looked for and an inner edge that is seated out must be measured by hand. Of a piece with a concave section, what rests on the inner edge is left blank. A piece with clips is not measured, as it does not lie flat; nor does one with calks: measure it by hand."
            </p>
            <h2>"By hand, and over each other"</h2>
            <p>
                "Move measures puts handles on the two ends of the measure that is pointed at, and on each nail hole: what lies between them is measured anew, as unsure as ends that are placed by hand, and the note of the photo says so. Laid over turns and shifts the outline, without resizing it, onto what the rubric asks for or onto an earlier shoe of the same learner, and says where it stands out and where it falls short. It gives no marks."
            </p>
            <h2>"How each measure is defined"</h2>
            <p>
                "The middle line is the one about which the outer edge, from heel corner over the toe to heel corner, mirrors best. Left and right are those of whoever looks down on the ground face with the toe up; of a shoe that lies foot side up, the left one in the photo fills the reading of the right."
            </p>
        </div>
        <div class="photo-definitions">
            <svg
                viewBox=MEASURES_BOX
                role="img"
                aria-label="A bar shoe, ground side up, with the number of each measure where it is taken"
                inner_html=MEASURES_DRAWN
            ></svg>
            <table class="table" data-stack="">
                <caption>"Measures and their numbers, in the drawing and over every photo"</caption>
                <thead><tr><th scope="col">"Measure"</th><th scope="col">"Definition"</th></tr></thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        </div>
    }
}
