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
                "It measures flat shoes, ground side up; or foot side up, where neither the fuller nor nail holes are looked for and an inner edge that is seated out must be measured by hand. Of a piece with a concave section, what rests on the inner edge is left blank. A piece with clips is measured foot side up, or, where the clip is at the toe, ground side up with that hanging over the edge of a board: a long side of the sheet lies along that edge, 1 mm or so from it, and the toe reaches over both by 8 to 12 mm. One with calks or studs is measured ground side up. Otherwise it does not lie flat and would read too large. What rests on the edge at a clip, 15 mm to each side of it or as far as it hangs over the sheet’s edge, and of a shoe with calks at the last 25 mm of the heels, is left blank."
            </p>
            <h2>"What gives the scale, and how sure it is"</h2>
            <dl>
                <dt>"A sheet of A4 or US Letter under the shoe"</dt>
                <dd>
                    "The surest: it tells where the camera was and how it leaned. Of a good photo the overall width is known to about ± 0.5 mm."
                </dd>
                <dt>"A card beside the shoe"</dt>
                <dd>
                    "A bank card or another of that size (85.60 × 53.98 mm), flat on plain light ground. It is small, so it tells the camera’s lean vaguely: the overall width is known to ± 1 to 2 mm. Where it would be vaguer than ± 2 mm, the photo is refused."
                </dd>
                <dt>"Two marks on a ruler"</dt>
                <dd>
                    "They give the scale and nothing else. The camera is taken to look straight down through the middle of the photo; that it may lean by 5 degrees, as a hand holds it, is part of how sure each value is: the overall width is known to ± 3 to 10 mm only, least where the ruler lies far from the shoe and the file tells no focal length. Good for a look, seldom for marks."
                </dd>
                <dt>"A scan of a drawn outline"</dt>
                <dd>
                    "A flatbed scanner looks straight at all of the paper, so its resolution is the scale, to about 0.2 %. What is vague is the tracing itself."
                </dd>
            </dl>
            <p>
                "A drawn outline can be photographed too, on a sheet, beside a card or a ruler. The middle of the pencil’s line is measured: of a bar shoe the outer line and the one round the hole. A pencil traces round a shoe at some distance, by about half its lead on each side, so a tracing is wider than the shoe. Nothing is taken off for that; each edge counts as known to 0.5 mm (standard uncertainty, a judgement). Fullers and nail holes are not looked for."
            </p>
            <h2>"By hand, and over each other"</h2>
            <p>
                "Move measures marks the two ends of the measure that is pointed at, and each nail hole. One of them at a time has a handle: tap the photo near another one, or press Previous or Next, to hold that. What lies between them is measured anew, as unsure as ends that are placed by hand, and the note of the photo says so. Laid over turns and shifts the outline, without resizing it, onto what the rubric asks for or onto an earlier shoe of the same learner, and says where it stands out and where it falls short. It gives no marks."
            </p>
            <p>
                "Move edge is for an edge that the gauge got wrong, as along a shadow, or that it leaves in doubt. Put a point where the edge should be: the outline goes through it, and all is measured anew, as unsure as places that are put by hand. Between two points less than 25 mm apart the outline runs from one to the other, except round a corner, so a few points take it off a long shadow. The note of the photo says how many there are."
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
