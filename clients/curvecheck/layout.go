package main

import "html/template"

// The page is one file without scripts or anything from elsewhere. It follows the reader's choice of light or dark, prints, and can be
// walked with a keyboard: each curve is a section with a heading, each picture says the same in words and in a table.
var (
	headLayout = template.Must(template.New("head").Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>Pump curves to look at</title>
<style>
:root { color-scheme: light dark; }
body { font: 16px/1.5 Georgia, "Liberation Serif", serif; max-width: 62rem; margin: 0 auto; padding: 1rem 1.25rem 4rem; background: Canvas; color: CanvasText; }
h1 { font-size: 1.7rem; line-height: 1.2; margin: 1rem 0 .25rem; }
h2 { font-size: 1.25rem; margin: 2.5rem 0 .5rem; border-top: 3px double; padding-top: 1rem; }
h3 { font-size: 1.1rem; margin: 0; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { text-align: left; padding: .15rem 1.2rem .15rem 0; border-bottom: 1px solid GrayText; vertical-align: top; }
td.n { text-align: right; }
section.curve { border-top: 1px solid; margin-top: 1.75rem; padding-top: .9rem; display: grid; grid-template-columns: minmax(0, 1fr) 20rem; gap: .25rem 1.75rem; break-inside: avoid; }
section.curve > header { grid-column: 1 / -1; display: flex; flex-wrap: wrap; gap: 0 1rem; align-items: baseline; }
section.curve .pictures { grid-column: 2; }
section.curve ul { padding: 0; margin: .5rem 0; list-style: none; }
section.curve li { margin-bottom: .8rem; }
.grave { font-weight: bold; text-transform: capitalize; }
.code { font: .8rem/1.4 "Liberation Mono", monospace; overflow-wrap: anywhere; }
.meant { border-left: 4px solid; padding-left: .8rem; }
figure { margin: .5rem 0; } figcaption, .small { font-size: .85rem; }
svg.picture { width: 100%; height: auto; max-width: 30rem; }
.scroll { overflow-x: auto; }
.pair { display: grid; grid-template-columns: repeat(auto-fit, minmax(20rem, 1fr)); gap: 1.5rem; }
@media (max-width: 46rem) { section.curve { display: block; } }
@media print { details { display: none; } body { font-size: 11pt; } }
</style>
</head>
<body>
<main>
<h1>Pump curves to look at</h1>
<p>Findings of a batch check: what is wrong with each curve, and what was probably meant. A sound curve is not on this page. Nothing was
changed; whoever knows the pump decides.</p>
{{range $i, $r := .Reviews}}{{with $r.Review}}
<h2>{{$r.File}}</h2>
<p>{{$r.Count .GetCurveCount}} curves, {{$r.Count .GetSoundCount}} of them sound. The gravest finding is a stop in {{$r.Count .GetStopCount}}, a caution in
{{$r.Count .GetCautionCount}} and a note in {{$r.Count .GetNoteCount}}.</p>
{{if .GetDefects}}<table><thead><tr><th scope="col">Finding</th><th scope="col">Curves</th></tr></thead><tbody>
{{range .GetDefects}}<tr><th scope="row" class="code">{{.GetCode}}</th><td class="n">{{$r.Count .GetCurveCount}}</td></tr>
{{end}}</tbody></table>{{end}}
<div class="pair">{{$r.Spread "Efficiency at the best point" " %" .GetEfficiencyPercent (printf "efficiency-%d" $i)}}
{{$r.Spread "Specific speed at 2,900 1/min" "" .GetSpecificSpeed (printf "speed-%d" $i)}}</div>
{{if .GetOutliers}}<h3>Unlike their neighbours</h3><table><thead><tr><th scope="col">Item</th><th scope="col">Figure</th><th scope="col">Here</th><th scope="col">Usual</th></tr></thead><tbody>
{{range $k, $o := .GetOutliers}}{{if lt $k 20}}<tr><th scope="row">{{.GetItemNumber}}</th><td>{{.GetFigure}}</td><td class="n">{{printf "%.3g" .GetValue}}</td><td class="n">{{printf "%.3g" .GetMedian}}</td></tr>
{{end}}{{end}}</tbody></table>{{end}}
{{with $r.Gaps}}<p>Duties that no pump is for, though there are pumps on both sides of them: {{.}}.</p>{{end}}
{{end}}{{end}}
<h2>The curves</h2>
{{if .More}}<p>The first {{.Shown}} are shown; {{.More}} more are in the other forms of the findings.</p>{{end}}
{{if not .Shown}}<p>Every curve is sound.</p>{{end}}
`))

	cardLayout = template.Must(template.New("card").Parse(`<section class="curve" aria-labelledby="{{.ID}}">
<header><h3 id="{{.ID}}">{{.Number}}</h3><span class="small">{{.File}}, row {{.Row}}{{with .Series}}, series {{.}}{{end}}</span></header>
<div><ul>{{range .Unread}}<li><span class="grave">Unread.</span> {{.}}</li>{{end}}
{{range .Defects}}<li><span class="grave">{{.Severity}}.</span> {{.Sentence}}<br>What to do: {{.Change}}.<br><span class="code">{{.Code}}</span> <span class="small">{{.Sure}} sure</span></li>
{{end}}</ul>
{{if .Changes}}<div class="meant"><strong>Probably meant</strong>, {{.Sure}} sure: {{range $i, $c := .Changes}}{{if $i}}; {{end}}{{$c}}{{end}}.</div>{{end}}</div>
<div class="pictures">{{.Given}}{{.Meant}}</div>
</section>
`))

	tailLayout = template.Must(template.New("tail").Parse(`<h2>What this rests on</h2>
<p class="small">Efficiencies are held against the average small circulator of Regulation (EU) 622/2012, annex II (formula from memory), and acceptance against
ISO 9906:2012 (from memory). A pump is for a duty if its curve at that flow gives the head, and no more than half as much again.</p>
</main>
</body>
</html>
`))
)
