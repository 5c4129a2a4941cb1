import { describe, expect, test } from "vitest";
import { weatherCheckAnswer } from "../../server/schemas/weather-check.ts";
import { theModel } from "../../server/the-model.ts";
import { fakeApp } from "../support/app.ts";
import { csv, inventedRows, SITE, wallText } from "../support/invented-station.ts";

const QUERY = new URLSearchParams({
  latitude: String(SITE.latitude),
  longitude: String(SITE.longitude),
  elevationM: String(SITE.elevationM),
  timeZone: SITE.timeZone,
  windHeightM: "2",
}).toString();
const ROWS = inventedRows("2026-06-10T05:00:00Z", 12);
const text = (head: string) =>
  csv(
    head,
    ROWS.map((row) =>
      [wallText(row.utcMs, "daylight"), row.tempC, row.humidity, row.windMps, row.solarWm2, row.rainMm].join(
        ",",
      ),
    ),
  );

function check(query: string, body: string) {
  return fakeApp({ model: theModel }).request(`/api/weather/check?${query}`, {
    method: "POST",
    headers: { "Content-Type": "text/csv" },
    body,
  });
}

describe("POST /api/weather/check with a station's file", () => {
  test("tells columns, units, basis and why; asks what the file does not say; takes the answers from the query", async () => {
    const first = weatherCheckAnswer.parse(
      await (await check(QUERY, text("Time,Temp,RH (%),Wind (m/s),Solar (W/m2),Rain (mm)"))).json(),
    );
    expect(first.series).toBeNull();
    expect(first.questions.map(({ id }) => id)).toEqual(["unit.Temp"]);
    expect(first.preview[0]).toMatchObject({ row: 2, wall: "2026-06-10 00:00" });
    const said = `${QUERY}&${new URLSearchParams({ "unit.Temp": "degC" })}`;
    const second = weatherCheckAnswer.parse(
      await (await check(said, text("Time,Temp,RH (%),Wind (m/s),Solar (W/m2),Rain (mm)"))).json(),
    );
    expect(second.questions).toEqual([]);
    expect(second.series?.hours.startUtc[0]).toBe("2026-06-10T05:00:00Z");
    expect(second.understood.find(({ column }) => column === "Temp")).toMatchObject({
      as: "airTempC",
      unit: "°C",
      basis: "user",
    });
    expect(second.clock).toMatchObject({ label: expect.any(String), centroidH: expect.any(Number) });
  });

  test("a form carries them in its mapping", async () => {
    const form = new FormData();
    form.set("file", new Blob([text("Time,Temp,RH (%),Wind (m/s),Solar (W/m2),Rain (mm)")]), "station.csv");
    form.set(
      "mapping",
      JSON.stringify({
        site: SITE,
        windHeightM: 2,
        answers: { "unit.Temp": "degC", clock: "daylight", label: "start" },
      }),
    );
    const response = await fakeApp({ model: theModel }).request("/api/weather/check", {
      method: "POST",
      body: form,
    });
    expect(response.status).toBe(200);
    const answer = weatherCheckAnswer.parse(await response.json());
    expect(answer.series?.hours.startUtc).toHaveLength(288);
    expect(answer.clock).toMatchObject({ dst: true, label: "start" });
  });

  test("an answer to nothing is refused by its name", async () => {
    const response = await check(`${QUERY}&moon=full`, text("Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2)"));
    expect(response.status).toBe(400);
    expect((await response.json()).issues[0].path).toBe("moon");
    const form = new FormData();
    form.set("file", "a,b\n1,2\n");
    form.set("mapping", JSON.stringify({ site: SITE, windHeightM: 2, answers: { moon: "full" } }));
    const other = await fakeApp({ model: theModel }).request("/api/weather/check", {
      method: "POST",
      body: form,
    });
    expect(other.status).toBe(400);
    expect((await other.json()).issues[0].path).toBe("mapping.answers");
  });
});
