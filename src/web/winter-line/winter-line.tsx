import { useEffect, useId, useRef, useState } from 'react';
import { say } from '../../wording/say.ts';
import { sayDayYear } from '../parts/dates.ts';
import { type Layout, layOut, type MeasureText, type PlacedStage, type WinterLineFacts } from './layout.ts';

const fonts = {
  stage: 'italic 400 15px Literata, Georgia, serif',
  small: '400 13px "Atkinson Hyperlegible Next", Verdana, sans-serif',
  strong: '700 13px "Atkinson Hyperlegible Next", Verdana, sans-serif',
};
let canvas: CanvasRenderingContext2D | null | undefined;
const measure: MeasureText = (text, style) => {
  canvas ??= document.createElement('canvas').getContext('2d');
  if (!canvas) return text.length * 7.5;
  canvas.font = fonts[style];
  return canvas.measureText(text).width + 1;
};

/** The width that an element is given, kept up to date, and again once the fonts have come. */
export function useWidth(): [(element: HTMLElement | null) => void, number] {
  const [width, setWidth] = useState(0);
  const [, redraw] = useState(0);
  const observer = useRef<ResizeObserver | undefined>(undefined);
  useEffect(() => {
    void document.fonts.ready.then(() => redraw((times) => times + 1));
  }, []);
  const ref = useRef((element: HTMLElement | null) => {
    observer.current?.disconnect();
    if (!element) return;
    observer.current = new ResizeObserver(() => setWidth(Math.floor(element.clientWidth)));
    observer.current.observe(element);
    setWidth(Math.floor(element.clientWidth));
  });
  return [ref.current, width];
}

const coldestC = 0;
const warmestC = 12;
/** The one temperature scale of the product: from cold ink to warm ochre, mixed in OKLab. */
const inkFor = (tempC: number) => {
  const share = Math.round((100 * (Math.max(coldestC, Math.min(warmestC, tempC)) - coldestC)) / (warmestC - coldestC));
  return `color-mix(in oklab, var(--warm) ${share}%, var(--cold))`;
};

/** The picture of one animal's winter; the same facts stand in the table beneath it. */
export function WinterLine({ facts, title }: { readonly facts: WinterLineFacts; readonly title: string }) {
  const [ref, width] = useWidth();
  return (
    <figure className="winter-line">
      <div ref={ref}>{width > 0 ? <Drawing at={layOut(facts, width, measure)} title={title} /> : null}</div>
      <FactsTable facts={facts} title={title} />
    </figure>
  );
}

function Drawing({ at, title }: { readonly at: Layout; readonly title: string }) {
  const id = useId();
  return (
    <svg width={at.width} height={at.height} viewBox={`0 0 ${at.width} ${at.height}`} role="img" aria-label={title}>
      <defs>
        <Hatch id={`${id}down`} angle={45} />
        <Hatch id={`${id}up`} angle={-45} />
      </defs>
      {at.ribbon ? <Ribbon ribbon={at.ribbon} /> : null}
      {at.today ? <line className="wl-today" x1={at.today.lineX} x2={at.today.lineX} y1={0} y2={at.axisY} /> : null}
      {at.stages.map((stage) => (
        <Stage key={`${stage.name}${stage.x0}`} stage={stage} y={at.lineY} hatchId={id} />
      ))}
      {at.ticks.map((tick) => (
        <line key={`${tick.x} ${tick.top}`} className="wl-ink" x1={tick.x} x2={tick.x} y1={tick.top} y2={at.tickFoot} />
      ))}
      {at.masses.map((label) => (
        <text key={`${label.x} ${label.text}`} className="wl-small" x={label.x} y={label.y}>
          {label.text}
        </text>
      ))}
      {at.notices.map((flag) => (
        <g key={`${flag.x} ${flag.y} ${flag.text}`} className={flag.actNow ? 'wl-flag wl-act' : 'wl-flag'}>
          <line x1={flag.poleX} x2={flag.poleX} y1={(at.ribbon?.highY ?? at.lineY) - 4} y2={flag.y + 5} />
          <rect x={flag.x} y={flag.y - 14} width={flag.width} height={19} />
          <text x={flag.x + 7} y={flag.y} textLength={undefined}>
            {flag.text}
          </text>
        </g>
      ))}
      <line className="wl-rule" x1={0} x2={at.width} y1={at.axisY} y2={at.axisY} />
      {at.months.map((month) => (
        <g key={month.x}>
          <line className="wl-rule" x1={month.x} x2={month.x} y1={at.axisY} y2={at.axisY + 6} />
          {month.label ? (
            <text className="wl-small wl-soft" x={month.label.x} y={month.label.y}>
              {month.label.text}
            </text>
          ) : null}
        </g>
      ))}
      {at.today ? (
        <text className="wl-today-word" x={at.today.x} y={at.today.y}>
          {at.today.text}
        </text>
      ) : null}
    </svg>
  );
}

function Hatch({ id, angle }: { readonly id: string; readonly angle: number }) {
  return (
    <pattern id={id} width={5} height={5} patternUnits="userSpaceOnUse" patternTransform={`rotate(${angle})`}>
      <line className="wl-ink" x1={0} x2={0} y1={0} y2={5} />
    </pattern>
  );
}

function Stage({ stage, y, hatchId }: { readonly stage: PlacedStage; readonly y: number; readonly hatchId: string }) {
  const { x0, x1, label } = stage;
  return (
    <g>
      {stage.leaderX === undefined ? null : (
        <line className="wl-rule" x1={stage.leaderX} x2={stage.leaderX} y1={y + 8} y2={label.y - 13} />
      )}
      <Stretch name={stage.name} x0={x0} x1={x1} y={y} hatchId={hatchId} />
      <text className="wl-stage" x={label.x} y={label.y}>
        {label.text}
      </text>
    </g>
  );
}

interface StretchProps {
  readonly name: PlacedStage['name'];
  readonly x0: number;
  readonly x1: number;
  readonly y: number;
  readonly hatchId: string;
}

/** Each stage has a stroke of its own, told apart without colour. */
function Stretch({ name, x0, x1, y, hatchId }: StretchProps) {
  const taper = (from: number, to: number) => `${x0},${y - from} ${x1},${y - to} ${x1},${y + to} ${x0},${y + from}`;
  switch (name) {
    case 'feeding-up':
    case 'back-to-full':
      return <rect className="wl-solid" x={x0} y={y - 5} width={x1 - x0} height={10} />;
    case 'winding-down':
      return <polygon className="wl-outline" fill={`url(#${hatchId}down)`} points={taper(5, 2.5)} />;
    case 'recovering':
      return <polygon className="wl-outline" fill={`url(#${hatchId}up)`} points={taper(2.5, 5)} />;
    case 'fast':
      return <line className="wl-dots" x1={x0 + 4} x2={x1 - 3} y1={y} y2={y} />;
    case 'asleep':
      return (
        <g className="wl-double">
          <line x1={x0} x2={x1} y1={y - 3} y2={y - 3} />
          <line x1={x0} x2={x1} y1={y + 3} y2={y + 3} />
        </g>
      );
    case 'waking':
      return <rect className="wl-open" x={x0 + 0.75} y={y - 5.5} width={x1 - x0 - 1.5} height={11} />;
    case 'cooling':
      return <line className="wl-dashes" x1={x0 + 2} x2={x1 - 2} y1={y} y2={y} />;
    case 'awake':
      return <line className="wl-single" x1={x0} x2={x1} y1={y} y2={y} />;
  }
}

function Ribbon({ ribbon }: { readonly ribbon: NonNullable<Layout['ribbon']> }) {
  return (
    <g>
      {ribbon.expected ? <polygon className="wl-expected" points={ribbon.expected} /> : null}
      {[ribbon.lowY, ribbon.highY].map((y) => (
        <line key={y} className="wl-rule" x1={ribbon.x0} x2={ribbon.x1} y1={y} y2={y} />
      ))}
      {[ribbon.lowLabel, ribbon.highLabel].map((label) => (
        <text key={label.text} className="wl-small wl-soft" x={label.x} y={label.y} textAnchor={label.anchor}>
          {label.text}
        </text>
      ))}
      {ribbon.spans.map((span) => (
        <line
          key={span.x}
          x1={span.x}
          x2={span.x}
          y1={span.y0}
          y2={span.y1}
          strokeWidth={Math.max(1.2, Math.min(4, ribbon.dayWidth * 0.8))}
          style={{ stroke: inkFor(span.meanC) }}
        />
      ))}
    </g>
  );
}

function FactsTable({ facts, title }: { readonly facts: WinterLineFacts; readonly title: string }) {
  return (
    <details className="why">
      <summary>{say('web.line.table')}</summary>
      <div>
        <table>
          <caption>{title}</caption>
          <thead>
            <tr>
              <th scope="col">{say('web.line.stage')}</th>
              <th scope="col">{say('web.line.from')}</th>
              <th scope="col">{say('web.line.to')}</th>
            </tr>
          </thead>
          <tbody>
            {facts.stages.map((stage) => (
              <tr key={`${stage.name}${stage.fromDay}`}>
                <th scope="row">{stage.label}</th>
                <td>{sayDayYear(stage.fromDay)}</td>
                <td>{sayDayYear(stage.toDay)}</td>
              </tr>
            ))}
          </tbody>
        </table>
        {facts.weighIns.length > 0 ? (
          <table>
            <caption>{say('web.line.weighIns')}</caption>
            <tbody>
              {facts.weighIns.map((one) => (
                <tr key={`${one.day} ${one.label}`}>
                  <th scope="row">{sayDayYear(one.day)}</th>
                  <td data-number>{one.label}</td>
                </tr>
              ))}
            </tbody>
          </table>
        ) : null}
        {facts.temperatures.length > 0 ? (
          <table>
            <caption>{say('web.line.temperatures')}</caption>
            <thead>
              <tr>
                <th scope="col">{say('web.line.day')}</th>
                <th scope="col" data-number>
                  {say('web.line.coldest')}
                </th>
                <th scope="col" data-number>
                  {say('web.line.warmest')}
                </th>
              </tr>
            </thead>
            <tbody>
              {facts.temperatures.map((one) => (
                <tr key={one.day}>
                  <th scope="row">{sayDayYear(one.day)}</th>
                  <td data-number>{facts.temperature(one.minC)}</td>
                  <td data-number>{facts.temperature(one.maxC)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        ) : null}
        {facts.notices.length > 0 ? (
          <table>
            <caption>{say('web.line.notices')}</caption>
            <tbody>
              {facts.notices.map((one) => (
                <tr key={`${one.day} ${one.label}`}>
                  <th scope="row">{sayDayYear(one.day)}</th>
                  <td>{one.label}</td>
                </tr>
              ))}
            </tbody>
          </table>
        ) : null}
      </div>
    </details>
  );
}
